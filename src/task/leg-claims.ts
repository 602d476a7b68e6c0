import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { JointMeasure } from './joint-measures.ts';

/**
 * A bound on the legs over a whole piece, for one leg: at every pose `W . v + kappa |v| >= least`, v the vector from base
 * to platform joint. W is `w` fixed in the base, or `-R w` with w fixed in the platform, or nothing.
 */
export interface LegClaim {
  readonly leg: number;
  /** Where w is fixed; null: W is zero, and the claim is about the length alone. */
  readonly plate: 'base' | 'platform' | null;
  readonly w: readonly [number, number, number];
  readonly kappa: number;
  readonly least: number;
}

const ZERO = [0, 0, 0] as const;

/** No leg is longer than this [mm]. */
export const noLonger = (length: number): readonly LegClaim[] =>
  eachLeg((leg) => [{ leg, plate: null, w: ZERO, kappa: -1, least: -length }]);

/** No leg is shorter than this [mm]. */
export const noShorter = (length: number): readonly LegClaim[] =>
  eachLeg((leg) => [{ leg, plate: null, w: ZERO, kappa: 1, least: length }]);

/**
 * No joint of a plate turns farther than this [rad]; null where the limit is no meeting of such bounds: an angle about a
 * universal joint's first axis past a right angle, for which one of two would do.
 */
export function noFarther(measure: JointMeasure, angle: number): readonly LegClaim[] | null {
  const { plate, about, axes, across } = measure;
  const at = (flat: Float64Array, leg: number) => [flat[3 * leg], flat[3 * leg + 1], flat[3 * leg + 2]] as const;
  if (angle >= (about === 'mount' || about === 'first' ? Math.PI : Math.PI / 2)) return [];
  if (about === 'mount') return eachLeg((leg) => [{ leg, plate, w: at(axes, leg), kappa: -Math.cos(angle), least: 0 }]);
  if (about !== 'first') {
    return eachLeg((leg) => {
      const [x, y, z] = at(axes, leg);
      const kappa = Math.sin(angle);
      return [
        { leg, plate, w: [x, y, z], kappa, least: 0 },
        { leg, plate, w: [-x, -y, -z], kappa, least: 0 },
      ];
    });
  }
  if (angle > Math.PI / 2) return null;
  return eachLeg((leg) =>
    [-1, 1].map((side) => {
      const along = at(axes, leg);
      const square = at(across, leg);
      const part = (n: 0 | 1 | 2) => along[n] * Math.sin(angle) + side * square[n] * Math.cos(angle);
      return { leg, plate, w: [part(0), part(1), part(2)], kappa: 0, least: 0 };
    }),
  );
}

const eachLeg = (claims: (leg: number) => readonly LegClaim[]): readonly LegClaim[] =>
  Array.from({ length: LEG_COUNT }, (_, leg) => claims(leg)).flat();

/** Size of the coordinates that the claims of a mechanism are computed from [mm]. */
export const claimScale = ({ size, p_PoTo_P }: Mechanism, centre: Float64Array): number =>
  size + Math.hypot(centre[0], centre[1], centre[2]) + Math.hypot(...p_PoTo_P);
