import { rotate, rotateBack } from '../math/rotation.ts';
import { at } from '../math/vec3.ts';
import type { DimensionName } from '../terms/dimensions.ts';
import { LEG_COUNT, type PlateName, type Ring, ringJoints } from './layout.ts';
import type { JointSpec, MechanismSpec, PlateLayout } from './mechanism.ts';
import { platformOrigin } from './pose.ts';

/** Values for some of the dimensions [mm, rad, or a plain ratio]. */
export type Dimensions = Partial<Readonly<Record<DimensionName, number>>>;

/** A design whose two plates are rings: the ones whose dimensions can be varied. */
export interface RingSpec extends MechanismSpec {
  readonly base: Extract<PlateLayout, { readonly kind: 'ring' }>;
  readonly platform: Extract<PlateLayout, { readonly kind: 'ring' }>;
}

/** Tells whether both plates are rings. */
export const isRingSpec = (spec: MechanismSpec): spec is RingSpec =>
  spec.base.kind === 'ring' && spec.platform.kind === 'ring';

/**
 * The same design with some dimensions changed. `radiusRatio` is platform radius over base radius and is applied after
 * `baseRadius`; `turn` is that of the platform beyond the base's; `homeHeight` moves the tool point's home along Z; `mountLean`
 * leans both mounts from square, toward the azimuths of a leaning mount or else along their own legs in plan.
 */
export function withDimensions(spec: RingSpec, dimensions: Dimensions): RingSpec {
  const base: Ring = {
    ...spec.base.ring,
    radius: dimensions.baseRadius ?? spec.base.ring.radius,
    gap: dimensions.baseGap ?? spec.base.ring.gap,
  };
  const { ring } = spec.platform;
  const platform: Ring = {
    ...ring,
    radius:
      dimensions.radiusRatio === undefined
        ? (dimensions.platformRadius ?? ring.radius)
        : dimensions.radiusRatio * base.radius,
    gap: dimensions.platformGap ?? ring.gap,
    turn: dimensions.turn === undefined ? ring.turn : base.turn + dimensions.turn,
  };
  const [x, y, z] = spec.home.p_BoTo_B;
  const changed: RingSpec = {
    ...spec,
    base: { kind: 'ring', ring: base },
    platform: { kind: 'ring', ring: platform },
    home: { ...spec.home, p_BoTo_B: [x, y, dimensions.homeHeight ?? z] },
  };
  return dimensions.mountLean === undefined ? changed : withLean(changed, dimensions.mountLean);
}

/** Every dimension as the design has it; the lean is that of the base mount, or 0. */
export function dimensionsOf({ base, platform, home, joints }: RingSpec): Readonly<Record<DimensionName, number>> {
  const { mount } = joints.base;
  return {
    baseGap: base.ring.gap,
    platformGap: platform.ring.gap,
    radiusRatio: platform.ring.radius / base.ring.radius,
    turn: platform.ring.turn - base.ring.turn,
    homeHeight: home.p_BoTo_B[2],
    baseRadius: base.ring.radius,
    platformRadius: platform.ring.radius,
    mountLean: mount.kind === 'leaning' ? mount.lean : 0,
  };
}

/** The same design with its joints free to sit anywhere on their circles. */
export function withoutHoles(spec: RingSpec): RingSpec {
  const bare = ({ radius, gap, turn, jointHeight }: Ring): Ring => ({ radius, gap, turn, jointHeight });
  return {
    ...spec,
    base: { kind: 'ring', ring: bare(spec.base.ring) },
    platform: { kind: 'ring', ring: bare(spec.platform.ring) },
  };
}

function withLean(spec: RingSpec, lean: number): RingSpec {
  const leaning = (plate: PlateName): JointSpec => {
    const joint = spec.joints[plate];
    const toward = joint.mount.kind === 'leaning' ? joint.mount.toward : legAzimuths(spec, plate);
    return { ...joint, mount: { kind: 'leaning', lean, toward } };
  };
  return { ...spec, joints: { base: leaning('base'), platform: leaning('platform') } };
}

/** Directions in plan from each joint of a plate to the leg's other end at home, in the plate's own axes [rad]. */
export function legAzimuths(spec: RingSpec, plate: PlateName): Float64Array {
  const base = ringJoints(spec.base.ring, 'base');
  const platform = ringJoints(spec.platform.ring, 'platform');
  const { home } = spec;
  const origin = platformOrigin(home, spec.tool);
  return Float64Array.from({ length: LEG_COUNT }, (_, leg) => {
    const end = rotate(home.R_BP, at(platform, leg));
    const x = origin[0] + end[0] - base[3 * leg];
    const y = origin[1] + end[1] - base[3 * leg + 1];
    if (plate === 'base') return Math.atan2(y, x);
    const back = rotateBack(home.R_BP, [-x, -y, -(origin[2] + end[2] - base[3 * leg + 2])]);
    return Math.atan2(back[1], back[0]);
  });
}
