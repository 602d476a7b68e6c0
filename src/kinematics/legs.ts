import { rotate, rotateBack } from '../math/rotation.ts';
import { add, angleBetween, at, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { jointMargin } from './joint-shapes.ts';
import { LEG_COUNT } from './layout.ts';
import { LIMIT_SLACK, type LimitName } from './limits.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** One leg at one pose. */
export interface LegState {
  /** 1 to 6. */
  readonly leg: number;
  /** p_BoAi_B and p_BoBi_B: joint centres in base axes [mm]. */
  readonly baseJoint_B: Vec3;
  readonly platformJoint_B: Vec3;
  /** Pin to pin [mm]. */
  readonly length: number;
  /** Unit vector from base joint to platform joint, base axes; zero for a leg of no length. */
  readonly u_B: Vec3;
  /** Angle between the leg and the mount axis at either end [rad]. */
  readonly baseTilt: number;
  readonly platformTilt: number;
  /** Limits that this leg breaks here, joints by the limits of their kinds; empty when all hold. */
  readonly violations: readonly LimitName[];
}

/**
 * Writes leg vectors p_AiBi_B (flat 18) and lengths (6) [mm] of a pose; no allocation.
 * p_AiBi_B = p_BoTo_B + R_BP p_ToBi_P - p_BoAi_B.
 */
export function writeLegs(mechanism: Mechanism, pose: Pose, vectors: Float64Array, lengths: Float64Array): void {
  const { p_ToBi_P, centres } = mechanism;
  const R = pose.R_BP;
  const t = pose.p_BoTo_B;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    const bx = p_ToBi_P[i];
    const by = p_ToBi_P[i + 1];
    const bz = p_ToBi_P[i + 2];
    const x = t[0] + R[0] * bx + R[1] * by + R[2] * bz - centres.base[i];
    const y = t[1] + R[3] * bx + R[4] * by + R[5] * bz - centres.base[i + 1];
    const z = t[2] + R[6] * bx + R[7] * by + R[8] * bz - centres.base[i + 2];
    vectors[i] = x;
    vectors[i + 1] = y;
    vectors[i + 2] = z;
    lengths[leg] = Math.sqrt(x * x + y * y + z * z);
  }
}

/** Leg lengths at a pose [mm], six. */
export function legLengths(mechanism: Mechanism, pose: Pose): Float64Array {
  const lengths = new Float64Array(LEG_COUNT);
  writeLegs(mechanism, pose, new Float64Array(3 * LEG_COUNT), lengths);
  return lengths;
}

/** Everything about the six legs at a pose: lengths, directions, joint tilts and the limits they break. */
export function legStates(mechanism: Mechanism, pose: Pose): readonly LegState[] {
  return Array.from({ length: LEG_COUNT }, (_, index) => legState(mechanism, pose, index));
}

function legState(mechanism: Mechanism, pose: Pose, index: number): LegState {
  const baseJoint_B = at(mechanism.centres.base, index);
  const platformJoint_B = add(pose.p_BoTo_B, rotate(pose.R_BP, at(mechanism.p_ToBi_P, index)));
  const p_AiBi_B = subtract(platformJoint_B, baseJoint_B);
  const size = length(p_AiBi_B);
  const u_B = size > 0 ? scale(p_AiBi_B, 1 / size) : p_AiBi_B;
  const baseTilt = angleBetween(u_B, at(mechanism.baseAxes_B, index));
  const platformTilt = angleBetween(scale(u_B, -1), rotate(pose.R_BP, at(mechanism.platformAxes_P, index)));
  const base = mechanism.crossJoints.base?.[index].shape;
  const platform = mechanism.crossJoints.platform?.[index].shape;
  const violations = brokenLimits(
    mechanism,
    size,
    base ? jointMargin(base, u_B) : mechanism.tiltLimit.base - baseTilt,
    platform
      ? jointMargin(platform, rotateBack(pose.R_BP, scale(u_B, -1)))
      : mechanism.tiltLimit.platform - platformTilt,
  );
  return {
    leg: index + 1,
    baseJoint_B,
    platformJoint_B,
    length: size,
    u_B,
    baseTilt,
    platformTilt,
    violations,
  };
}

function brokenLimits(
  mechanism: Mechanism,
  size: number,
  baseMargin: number,
  platformMargin: number,
): readonly LimitName[] {
  const { legs } = mechanism;
  const broken: LimitName[] = [];
  if (size < legs.min - LIMIT_SLACK * mechanism.size) broken.push('legTooShort');
  if (size > legs.max + LIMIT_SLACK * mechanism.size) broken.push('legTooLong');
  if (baseMargin < -LIMIT_SLACK) broken.push('baseJoint');
  if (platformMargin < -LIMIT_SLACK) broken.push('platformJoint');
  return broken;
}
