import { rotate } from '../math/rotation.ts';
import { add, cross, length, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import { type Inertia, inertiaFault } from './inertia.ts';
import { inputFault, type JudgementFault } from './inverse-jacobian.ts';
import type { Mechanism } from './mechanism.ts';
import { type Pose, platformOrigin } from './pose.ts';

/** Everything that moves with the platform, its own plate included; the legs' own weight is not counted. */
export interface Payload {
  /** [kg], at least 0. */
  readonly mass: number;
  /** p_PoCo_P: centre of mass in the platform frame [mm]. */
  readonly centre: Vec3;
  /** About the centre of mass, along the platform's axes [kg mm^2]: three moments or the whole matrix; left out: a point mass. */
  readonly inertia?: Vec3 | Inertia;
}

/** Something that carries part of the weight between a point of the frame and a point of the platform. */
export type Balance =
  /** A weight over a pulley or a constant-force spring: always pulls the platform point toward the anchor. */
  | { readonly kind: 'counterweight'; readonly anchor_B: Vec3; readonly attach_P: Vec3; readonly pull: number }
  /** Pulls when longer than its free length [mm] and pushes when shorter, by `rate` [N/mm]. */
  | {
      readonly kind: 'spring';
      readonly anchor_B: Vec3;
      readonly attach_P: Vec3;
      readonly rate: number;
      readonly freeLength: number;
    };

/** What the six legs have to hold. */
export interface Load {
  readonly payload: Payload;
  /** Weight of one kilogram as a vector in base axes [N/kg]; turn it for a platform that hangs or stands on a wall. */
  readonly gravity: Vec3;
  /** Outside force at the tool point [N] and torque [N mm], base axes. */
  readonly force: Vec3;
  readonly torque: Vec3;
  readonly balances: readonly Balance[];
}

/** Standard acceleration of free fall, straight down [N/kg]. */
export const STANDARD_GRAVITY: Vec3 = [0, 0, -9.80665];

/** A payload in standard gravity with nothing else acting. */
export const payloadOnly = (payload: Payload): Load => ({
  payload,
  gravity: STANDARD_GRAVITY,
  force: [0, 0, 0],
  torque: [0, 0, 0],
  balances: [],
});

/** p_ToCo_B: arm from the tool point to the payload's centre of mass, base axes [mm]. */
export const centreArm = (mechanism: Mechanism, pose: Pose, { centre }: Payload): Vec3 =>
  rotate(pose.R_BP, subtract(centre, mechanism.p_PoTo_P));

/** Force [N] and moment about the tool point [N mm] of everything but the legs, base axes, six numbers. */
export function loadWrench(mechanism: Mechanism, pose: Pose, load: Load): Float64Array {
  const weight = scale(load.gravity, load.payload.mass);
  let force = add(weight, load.force);
  let moment = add(cross(centreArm(mechanism, pose, load.payload), weight), load.torque);
  for (const balance of load.balances) {
    const pull = balancePull(mechanism, pose, balance);
    force = add(force, pull.force);
    moment = add(moment, cross(pull.arm, pull.force));
  }
  return Float64Array.of(...force, ...moment);
}

/** Force of a balance on the platform, and its arm from the tool point, base axes. */
function balancePull(mechanism: Mechanism, pose: Pose, balance: Balance): { readonly force: Vec3; readonly arm: Vec3 } {
  const p_BoSp_B = add(platformOrigin(pose, mechanism.p_PoTo_P), rotate(pose.R_BP, balance.attach_P));
  const toAnchor = subtract(balance.anchor_B, p_BoSp_B);
  const pull = balance.kind === 'counterweight' ? balance.pull : balance.rate * (length(toAnchor) - balance.freeLength);
  return { force: scale(unit(toAnchor), pull), arm: subtract(p_BoSp_B, pose.p_BoTo_B) };
}

/** First number of a load that cannot be used, in words; null when all can. */
export function loadFault({ payload, gravity, force, torque, balances }: Load): JudgementFault | null {
  if (!(payload.mass >= 0) || !Number.isFinite(payload.mass))
    return inputFault(`Payload mass: ${payload.mass} kg; it must be a number of at least 0.`);
  const inertia = payload.inertia && inertiaFault(payload.inertia);
  if (inertia) return inputFault(`Payload inertia: ${payload.inertia?.join(', ')} kg mm^2; ${inertia}.`);
  const vectors: readonly (readonly [string, Vec3])[] = [
    ['Centre of mass', payload.centre],
    ['Gravity', gravity],
    ['Outside force', force],
    ['Outside torque', torque],
    ...balances.flatMap(({ anchor_B, attach_P }, n) => [
      [`Balance ${n + 1}, anchor`, anchor_B] as const,
      [`Balance ${n + 1}, attachment`, attach_P] as const,
    ]),
  ];
  for (const [name, vector] of vectors)
    if (!vector.every(Number.isFinite))
      return inputFault(`${name}: ${vector.join(', ')}; each must be a finite number.`);
  for (const [n, balance] of balances.entries()) {
    const numbers =
      balance.kind === 'counterweight'
        ? { pull: balance.pull }
        : { rate: balance.rate, 'free length': balance.freeLength };
    for (const [name, value] of Object.entries(numbers))
      if (!(value >= 0) || !Number.isFinite(value))
        return inputFault(`Balance ${n + 1}, ${name}: ${value}; it must be a number of at least 0.`);
  }
  return null;
}
