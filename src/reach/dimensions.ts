import type { PlateName, Ring } from '../kinematics/layout.ts';
import type { MechanismSpec } from '../kinematics/mechanism.ts';

/** A number of a design that can be turned up or down by itself. */
export interface Dimension {
  readonly name: string;
  /** Plain words for a menu or a bar. */
  readonly words: string;
  readonly unit: 'mm' | 'rad';
  readonly value: number;
  /** The same design with another value here. */
  apply(value: number): MechanismSpec;
}

/** The numbers of a design: ring radii, gaps and turns where a plate has a ring, leg lengths, joint limits, home height. */
export function dimensionsOf(spec: MechanismSpec): readonly Dimension[] {
  const { legs, home } = spec;
  const [x, y, z] = home.p_BoTo_B;
  return [
    ...ringDimensions(spec, 'base'),
    ...ringDimensions(spec, 'platform'),
    {
      name: 'legMin',
      words: 'shortest leg',
      unit: 'mm',
      value: legs.min,
      apply: (min) => ({ ...spec, legs: { ...legs, min } }),
    },
    {
      name: 'legMax',
      words: 'longest leg',
      unit: 'mm',
      value: legs.max,
      apply: (max) => ({ ...spec, legs: { ...legs, max } }),
    },
    tiltDimension(spec, 'base'),
    tiltDimension(spec, 'platform'),
    {
      name: 'homeHeight',
      words: 'home height',
      unit: 'mm',
      value: z,
      apply: (height) => ({ ...spec, home: { ...home, p_BoTo_B: [x, y, height] } }),
    },
  ];
}

/** Radius, gap and turn of one ring; as if holes were everywhere, since a small change would snap back to the same hole. */
function ringDimensions(spec: MechanismSpec, plate: PlateName): readonly Dimension[] {
  const layout = spec[plate];
  if (layout.kind !== 'ring') return [];
  const { radius, gap, turn, jointHeight } = layout.ring;
  const free: Ring = { radius, gap, turn, jointHeight };
  const dimension = (name: 'radius' | 'gap' | 'turn', words: string, unit: Dimension['unit']): Dimension => ({
    name: `${plate}${name[0].toUpperCase()}${name.slice(1)}`,
    words: `${plate} ${words}`,
    unit,
    value: free[name],
    apply: (value) => ({ ...spec, [plate]: { kind: 'ring', ring: { ...free, [name]: value } } }),
  });
  return [dimension('radius', 'radius', 'mm'), dimension('gap', 'pair gap', 'rad'), dimension('turn', 'turn', 'rad')];
}

function tiltDimension(spec: MechanismSpec, plate: PlateName): Dimension {
  const joint = spec.joints[plate];
  return {
    name: `${plate}Tilt`,
    words: `${plate} joint tilt limit`,
    unit: 'rad',
    value: joint.tiltLimit,
    apply: (tiltLimit) => ({ ...spec, joints: { ...spec.joints, [plate]: { ...joint, tiltLimit } } }),
  };
}
