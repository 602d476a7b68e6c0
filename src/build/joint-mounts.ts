import { LEG_COUNT, type PlateName } from '../kinematics/layout.ts';
import { at, type Vec3 } from '../math/vec3.ts';
import { type BuildParts, jointFace } from './parts.ts';

/** A place on a plate: x y in the plate's frame, seen from +Z [mm]. */
export type Point = readonly [number, number];

/** How one joint stands on its plate. */
export interface JointMount {
  /** 1 to 6. */
  readonly leg: number;
  /** The joint's centre in the plate's frame. */
  readonly centre: Vec3;
  /** The place of the face straight under the centre: the indexed hole, where there is one. */
  readonly foot: Point;
  /** Height of the centre over the face on which the joint stands [mm]. */
  readonly height: number;
  /** Unit mount axis, away from the plate, plate frame. */
  readonly axis: Vec3;
  /** Angle of the axis from the square of the face [rad]. */
  readonly lean: number;
  /** Azimuth toward which it leans [rad], counter-clockwise from +X seen from above; of an upright mount, straight outward. */
  readonly toward: number;
  /** Azimuth of the joint itself [rad]. */
  readonly azimuth: number;
  /** Number of its hole: the hole at the start angle is 1, counted counter-clockwise seen from above; null without holes. */
  readonly hole: number | null;
  /** Where its bracket is bolted. */
  readonly bolts: readonly Point[];
}

/** A mount that leans less than this is upright [rad]: 0.005 deg, a tenth of what a bracket is cut to. */
export const UPRIGHT = 1e-4;

/** The six joints of a plate as they are mounted, leg 1 first. */
export function jointMounts(parts: BuildParts, side: PlateName): readonly JointMount[] {
  return Array.from({ length: LEG_COUNT }, (_, index) => jointMount(parts, side, index));
}

function jointMount(parts: BuildParts, side: PlateName, index: number): JointMount {
  const { mechanism } = parts;
  const centre = at(mechanism.centres[side], index);
  const axis = at(side === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P, index);
  const away = side === 'base' ? 1 : -1;
  const foot: Point = [centre[0], centre[1]];
  const azimuth = Math.atan2(foot[1], foot[0]);
  const lean = Math.atan2(Math.hypot(axis[0], axis[1]), away * axis[2]);
  const toward = lean < UPRIGHT ? azimuth : Math.atan2(axis[1], axis[0]);
  return {
    leg: index + 1,
    centre,
    foot,
    height: away * (centre[2] - jointFace(parts, side)),
    axis,
    lean,
    toward,
    azimuth,
    hole: holeNumber(parts, side, azimuth),
    bolts: boltPlaces(parts, foot, toward),
  };
}

function holeNumber({ mechanism }: BuildParts, side: PlateName, azimuth: number): number | null {
  const layout = mechanism.spec[side];
  if (layout.kind !== 'ring' || !layout.ring.holes) return null;
  const { count, start } = layout.ring.holes;
  const index = Math.round(((azimuth - start) * count) / (2 * Math.PI));
  return (((index % count) + count) % count) + 1;
}

/** Bolts of a bracket about its foot; two stand in the line of its lean, four at the corners of a square turned with it. */
function boltPlaces({ choices }: BuildParts, [x, y]: Point, toward: number): readonly Point[] {
  const half = choices.boltSpacing / 2;
  const places: readonly Point[] =
    choices.bolts === '1'
      ? [[0, 0]]
      : choices.bolts === '2'
        ? [
            [-half, 0],
            [half, 0],
          ]
        : choices.bolts === '4'
          ? [
              [-half, -half],
              [half, -half],
              [half, half],
              [-half, half],
            ]
          : [];
  const [c, s] = [Math.cos(toward), Math.sin(toward)];
  return places.map(([u, v]) => [x + c * u - s * v, y + s * u + c * v]);
}

/** The corners of a bracket's square foot, counter-clockwise. */
export function bracketFoot({ choices }: BuildParts, { foot: [x, y], toward }: JointMount): readonly Point[] {
  const half = choices.block / 2;
  const [c, s] = [Math.cos(toward), Math.sin(toward)];
  const corners: readonly Point[] = [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ];
  return corners.map(([u, v]) => [x + c * u - s * v, y + s * u + c * v]);
}
