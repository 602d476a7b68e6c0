import { failed, ok, type Result } from '../math/result.ts';
import { svd } from '../math/svd.ts';
import { length, type Vec3 } from '../math/vec3.ts';
import { type InvertedJacobian, invertedJacobian, type JudgementFault } from './inverse-jacobian.ts';
import { scaledJacobian } from './jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import { type Load, loadFault, loadWrench } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** One leg's force; positive pushes the two plates apart. */
export interface LegForce {
  /** 1 to 6. */
  readonly leg: number;
  /** [N] */
  readonly force: number;
}

/** What each leg carries at rest. */
export interface ForceReport {
  /** Leg 1 first [N]; positive: the leg pushes, negative: it pulls. */
  readonly forces: Float64Array;
  /** The load: force [N] and moment about the tool point [N mm], base axes, six numbers. */
  readonly wrench: Float64Array;
  readonly largestPush: LegForce | null;
  readonly largestPull: LegForce | null;
  /** Legs that pull while others push: where a leg goes from push to pull, its backlash opens. */
  readonly mixedSigns: boolean;
  /** Why a leg carries more than the whole load, when the pose is to blame; null otherwise. */
  readonly explanation: string | null;
}

/**
 * Leg forces at rest: `J^T f = -w`, with w the load's wrench about the tool point (principle of virtual work).
 */
export function assessForces(mechanism: Mechanism, pose: Pose, load: Load): Result<ForceReport, JudgementFault> {
  const fault = loadFault(load);
  if (fault) return failed(fault);
  const inverted = invertedJacobian(mechanism, pose);
  if (!inverted.ok) return inverted;
  const wrench = loadWrench(mechanism, pose, load);
  const forces = legForces(inverted.value.inverse, wrench);
  const legs = Array.from(forces, (force, index) => ({ leg: index + 1, force }));
  const largestPush = extreme(legs, 1);
  const largestPull = extreme(legs, -1);
  return ok({
    forces,
    wrench,
    largestPush,
    largestPull,
    mixedSigns: largestPush !== null && largestPull !== null,
    explanation: explainForces(mechanism, inverted.value, forces, wrench),
  });
}

/** f = -(J^-1)^T w [N], leg 1 first. */
export function legForces(inverse: Float64Array, wrench: Float64Array): Float64Array {
  const forces = new Float64Array(LEG_COUNT);
  for (let row = 0; row < 6; row++)
    for (let leg = 0; leg < LEG_COUNT; leg++) forces[leg] -= inverse[6 * row + leg] * wrench[row];
  return forces;
}

function extreme(legs: readonly LegForce[], sign: 1 | -1): LegForce | null {
  const most = legs.reduce((best, leg) => (sign * leg.force > sign * best.force ? leg : best));
  return sign * most.force > 0 ? most : null;
}

/** Share of the squared leg forces above which the loosest motion is named as their cause: more than all other motions. */
const LOOSEST_SHARE = 0.5;

/**
 * Leg forces are the sum over the six singular motions of `-(w . v) / s` times a pattern of legs. When one leg carries
 * more than the whole load and most of it comes from the smallest singular value, the pose is the reason.
 */
function explainForces(
  { characteristicLength }: Mechanism,
  { J }: InvertedJacobian,
  forces: Float64Array,
  wrench: Float64Array,
): string | null {
  const push: Vec3 = [wrench[0], wrench[1], wrench[2]];
  const turn: Vec3 = [wrench[3], wrench[4], wrench[5]];
  const load = Math.hypot(length(push), length(turn) / characteristicLength);
  const worst = forces.reduce((best, force, leg) => (Math.abs(force) > Math.abs(forces[best]) ? leg : best), 0);
  if (!(Math.abs(forces[worst]) > load)) return null;
  const { values, V } = svd(scaledJacobian(J, characteristicLength), 6);
  let along = 0;
  for (let row = 0; row < 6; row++) along += (V[6 * row + 5] * wrench[row]) / (row < 3 ? 1 : characteristicLength);
  const total = forces.reduce((sum, force) => sum + force * force, 0);
  const share = (along / values[5]) ** 2 / total;
  if (share < LOOSEST_SHARE) return null;
  const turning = Math.hypot(V[23], V[29], V[35]) > Math.SQRT1_2 ? 'a turn' : 'a shift';
  return (
    `Leg ${worst + 1} ${forces[worst] > 0 ? 'pushes' : 'pulls'} with ${figure(Math.abs(forces[worst]))} N, more than the whole load of ` +
    `${figure(load)} N: the legs hardly resist one motion here (${turning}), and work against each other to hold it. ` +
    `${figure(100 * share)} % of the effort comes from it; it grows without bound toward the singular pose.`
  );
}

/** Three significant figures, without an exponent or trailing zeros. */
const figure = (value: number): string => String(Number(value.toPrecision(3)));
