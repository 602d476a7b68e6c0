import { failed, ok, type Result } from '../math/result.ts';
import { svd } from '../math/svd.ts';
import { length, unit, type Vec3 } from '../math/vec3.ts';
import { beyondFirstOrder, type ToolShift } from './accuracy.ts';
import { inputFault, invertedJacobian, type JudgementFault } from './inverse-jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import { type Load, loadFault, loadWrench } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import { type NaturalModes, naturalModes } from './natural-modes.ts';
import type { Pose } from './pose.ts';

/** Axial stiffness of one leg's parts [N/mm], each above 0; Infinity for a part that does not give. */
export interface LegStiffness {
  /** Barrel, screw and rod together. */
  readonly leg: number;
  readonly baseJoint: number;
  readonly platformJoint: number;
}

/** The same stiffness in all six legs. */
export const sameStiffness = (own: LegStiffness): readonly LegStiffness[] =>
  Array.from({ length: LEG_COUNT }, () => own);

/** A direction in base axes and the stiffness along or about it. */
export interface DirectedStiffness {
  /** Unit vector, base axes. */
  readonly direction: Vec3;
  /** Translation [N/mm], rotation [N mm/rad]. */
  readonly stiffness: number;
}

export interface StiffnessReport {
  /** `K = J^T diag(k) J` about the tool point [N/mm, N, N mm], flat 6x6, base axes. */
  readonly K: Float64Array;
  /** K^-1, flat 6x6. */
  readonly compliance: Float64Array;
  /** Force needed for 1 mm of travel in the direction in which a force at the tool moves it most, rotations left free. */
  readonly weakestTranslation: DirectedStiffness;
  readonly stiffestTranslation: DirectedStiffness;
  /** Torque for 1 rad about the axis about which a torque turns the tool most, translations left free. */
  readonly weakestRotation: DirectedStiffness;
  /** How the tool moves under the load, from the unloaded pose. */
  readonly sag: ToolShift;
  /** The horizontal direction in which 1 N at the tool moves it most, and the motion. */
  readonly sideForce: { readonly direction: Vec3; readonly shift: ToolShift };
  readonly modes: NaturalModes;
}

/** Why the sag under the load means nothing at a pose; null where it does. */
export const beyondLinearSag = (mechanism: Mechanism, { translation, rotation }: ToolShift): string | null =>
  beyondFirstOrder(mechanism, length(translation), length(rotation), 'on springs this stiff the load would cause');

/**
 * Stiffness at the tool point, linear about the pose. Legs act along their axis only (ball joints), plates and frame are
 * rigid, and the small effect of preload on stiffness is left out.
 */
export function assessStiffness(
  mechanism: Mechanism,
  pose: Pose,
  legs: readonly LegStiffness[],
  load: Load,
): Result<StiffnessReport, JudgementFault> {
  const springs = seriesStiffness(legs);
  if (!springs.ok) return springs;
  const fault = loadFault(load);
  if (fault) return failed(fault);
  const inverted = invertedJacobian(mechanism, pose);
  if (!inverted.ok) return inverted;
  const { J, inverse } = inverted.value;
  const K = stiffnessMatrix(J, springs.value);
  const C = complianceMatrix(inverse, springs.value);
  const translation = softAndFirm(C, 0);
  return ok({
    K,
    compliance: C,
    weakestTranslation: translation.weakest,
    stiffestTranslation: translation.stiffest,
    weakestRotation: softAndFirm(C, 3).weakest,
    sag: shiftUnder(C, loadWrench(mechanism, pose, load)),
    sideForce: worstSideForce(C),
    modes: naturalModes(mechanism, pose, J, springs.value, load.payload),
  });
}

/** Each leg's springs in series, `1/k = 1/leg + 1/baseJoint + 1/platformJoint` [N/mm]. */
export function seriesStiffness(legs: readonly LegStiffness[]): Result<Float64Array, JudgementFault> {
  if (legs.length !== LEG_COUNT) return failed(inputFault(`Stiffness is needed for six legs, not ${legs.length}.`));
  const springs = new Float64Array(LEG_COUNT);
  for (const [index, { leg, baseJoint, platformJoint }] of legs.entries()) {
    for (const [part, value] of [
      ['leg', leg],
      ['base joint', baseJoint],
      ['platform joint', platformJoint],
    ] as const)
      if (!(value > 0))
        return failed(inputFault(`Leg ${index + 1}, stiffness of the ${part}: ${value} N/mm; it must be above 0.`));
    const give = 1 / leg + 1 / baseJoint + 1 / platformJoint;
    if (!(give > 0))
      return failed(inputFault(`Leg ${index + 1} has no part that gives; one stiffness must be finite.`));
    springs[index] = 1 / give;
  }
  return ok(springs);
}

/** K = J^T diag(k) J, flat 6x6. */
export function stiffnessMatrix(J: Float64Array, springs: Float64Array): Float64Array {
  const K = new Float64Array(36);
  for (let leg = 0; leg < LEG_COUNT; leg++)
    for (let row = 0; row < 6; row++)
      for (let column = 0; column < 6; column++)
        K[6 * row + column] += J[6 * leg + row] * springs[leg] * J[6 * leg + column];
  return K;
}

/** K^-1 = J^-1 diag(1/k) J^-T, flat 6x6; not by inverting K, which would square the condition. */
export function complianceMatrix(inverse: Float64Array, springs: Float64Array): Float64Array {
  const C = new Float64Array(36);
  for (let leg = 0; leg < LEG_COUNT; leg++)
    for (let row = 0; row < 6; row++)
      for (let column = 0; column < 6; column++)
        C[6 * row + column] += (inverse[6 * row + leg] * inverse[6 * column + leg]) / springs[leg];
  return C;
}

/** C w as a motion of the tool. */
function shiftUnder(C: Float64Array, wrench: Float64Array): ToolShift {
  const motion = [0, 0, 0, 0, 0, 0];
  for (let row = 0; row < 6; row++)
    for (let column = 0; column < 6; column++) motion[row] += C[6 * row + column] * wrench[column];
  return { translation: [motion[0], motion[1], motion[2]], rotation: [motion[3], motion[4], motion[5]] };
}

/** Extremes of the 3x3 diagonal block of C that starts at `first` (0 translation, 3 rotation): its eigenvectors. */
function softAndFirm(C: Float64Array, first: number): { weakest: DirectedStiffness; stiffest: DirectedStiffness } {
  const block = Float64Array.from({ length: 9 }, (_, n) => C[6 * (first + Math.floor(n / 3)) + first + (n % 3)]);
  const { values, V } = svd(block, 3);
  const pick = (column: number): DirectedStiffness => ({
    direction: upward([V[column], V[3 + column], V[6 + column]]),
    stiffness: 1 / values[column],
  });
  return { weakest: pick(0), stiffest: pick(2) };
}

/** Fixes the free sign of a direction: its largest component is positive. */
function upward(direction: Vec3): Vec3 {
  const largest = direction.reduce((best, entry) => (Math.abs(entry) > Math.abs(best) * (1 + 1e-9) ? entry : best), 0);
  return largest < 0 ? [-direction[0], -direction[1], -direction[2]] : direction;
}

function worstSideForce(C: Float64Array): StiffnessReport['sideForce'] {
  // translation for a horizontal force: the first two columns of the block, padded so that one routine serves
  const block = Float64Array.of(C[0], C[1], 0, C[6], C[7], 0, C[12], C[13], 0);
  const { V } = svd(block, 3);
  const direction = upward(unit([V[0], V[3], 0]));
  return { direction, shift: shiftUnder(C, Float64Array.of(direction[0], direction[1], 0, 0, 0, 0)) };
}
