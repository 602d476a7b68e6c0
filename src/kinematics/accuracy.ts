import { ok, type Result } from '../math/result.ts';
import { rotateBack } from '../math/rotation.ts';
import type { Vec3 } from '../math/vec3.ts';
import { ERROR_SOURCES, type ErrorSource, type LegErrors, legErrorBounds } from './error-sources.ts';
import { type InvertedJacobian, invertedJacobian, type JudgementFault } from './inverse-jacobian.ts';
import { extentOf, LEG_COUNT } from './layout.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** Size of the tool's error, each component as its own largest value (they need not occur together). */
export interface ErrorSize {
  /** Along base x, y, z [mm]. */
  readonly translation: Vec3;
  /** Largest length of the error vector [mm]. */
  readonly translationLength: number;
  /** About base x, y, z [rad]. */
  readonly rotation: Vec3;
  /** Largest length of the rotation vector [rad]. */
  readonly rotationLength: number;
}

/** What one source of error does to the tool when all the others are zero. */
export interface ErrorContribution {
  readonly source: ErrorSource;
  readonly worst: ErrorSize;
  readonly rss: ErrorSize;
  /** Share of the squared root-sum-square translation, 0 to 1; the shares add up to 1. */
  readonly share: number;
}

export interface AccuracyReport {
  /** Every source at its limit, in the most harmful combination of signs; exact to first order. */
  readonly worst: ErrorSize;
  /** All sources independent: the root of the sum of squares of what each limit alone does. */
  readonly rss: ErrorSize;
  /** Sources with a number above zero, largest worst translation first. */
  readonly contributors: readonly ErrorContribution[];
}

/**
 * Past this share of the platform's mean joint radius, or this angle [rad], the directions of the legs change so much along the
 * error that it is no longer proportional to the leg errors: what was left out is of the size of the figure squared, a tenth of it.
 */
export const FIRST_ORDER_SHARE = 0.1;
export const FIRST_ORDER_TURN = 0.1;

/** Mean distance of the platform's joints from their centroid [mm]. */
const platformRadius = ({ centres }: Mechanism): number => extentOf(centres.platform).mean;

/** The largest shift [mm] for which a figure of the first order holds. */
export const firstOrderShift = (mechanism: Mechanism): number => FIRST_ORDER_SHARE * platformRadius(mechanism);

/** Whether a figure of the first order holds for a shift [mm] with a turn [rad]; {@link beyondFirstOrder} says why it does not. */
export const holdsFirstOrder = (mechanism: Mechanism, shift: number, turn: number): boolean =>
  shift <= firstOrderShift(mechanism) && turn <= FIRST_ORDER_TURN;

/** The longest translation [mm], or null where no figure of the first order holds. */
export const boundedTranslation = (
  mechanism: Mechanism,
  { translationLength, rotationLength }: ErrorSize,
): number | null => (holdsFirstOrder(mechanism, translationLength, rotationLength) ? translationLength : null);

/**
 * Why a shift [mm] with a turn [rad] is too large for a figure of the first order, in words; null where it is not.
 * @param cause what would move the tool that far: a sentence's start that "a shift of ..." or "a turn of ..." goes on from
 */
export function beyondFirstOrder(
  mechanism: Mechanism,
  shift: number,
  turn: number,
  cause = 'the legs’ errors would add up to',
): string | null {
  if (holdsFirstOrder(mechanism, shift, turn)) return null;
  const passed =
    turn > FIRST_ORDER_TURN
      ? `a turn of more than ${FIRST_ORDER_TURN} rad`
      : `a shift of more than a tenth of the platform’s joint radius of ${Number(platformRadius(mechanism).toPrecision(3))} mm`;
  return `Too close to a singular pose for a first-order figure: ${cause} ${passed}, over which the directions of the legs do not stay as they are.`;
}

/**
 * Error of the tool at a pose, to first order: `dx = J^-1 dl`, where dl_i is how much leg i's effective length is off.
 * @param errors six entries, leg 1 first (see `sameErrors`)
 */
export function assessAccuracy(
  mechanism: Mechanism,
  pose: Pose,
  errors: readonly LegErrors[],
): Result<AccuracyReport, JudgementFault> {
  const inverted = invertedJacobian(mechanism, pose);
  if (!inverted.ok) return inverted;
  const bounds = legErrorBounds(mechanism, inverted.value.J, (u_B) => rotateBack(pose.R_BP, u_B), errors);
  if (!bounds.ok) return bounds;
  return ok(report(inverted.value, bounds.value));
}

function report({ inverse }: InvertedJacobian, bounds: Float64Array): AccuracyReport {
  const sums = new Float64Array(LEG_COUNT);
  const roots = new Float64Array(LEG_COUNT);
  for (let i = 0; i < bounds.length; i++) {
    sums[i % LEG_COUNT] += bounds[i];
    roots[i % LEG_COUNT] += bounds[i] ** 2;
  }
  const rss = rootSumSquare(
    inverse,
    roots.map((square) => Math.sqrt(square)),
  );
  const contributors = ERROR_SOURCES.map((source, index) => {
    const own = bounds.subarray(LEG_COUNT * index, LEG_COUNT * (index + 1));
    const ownRss = rootSumSquare(inverse, own);
    return {
      source,
      worst: worstCase(inverse, own),
      rss: ownRss,
      share: rss.translationLength > 0 ? (ownRss.translationLength / rss.translationLength) ** 2 : 0,
    };
  })
    .filter(({ worst }) => worst.translationLength + worst.rotationLength > 0)
    .sort(
      (a, b) =>
        b.worst.translationLength - a.worst.translationLength || b.worst.rotationLength - a.worst.rotationLength,
    );
  return { worst: worstCase(inverse, sums), rss, contributors };
}

/** |J^-1| dl by component; the vector's length is largest at a corner of the box of leg errors. */
function worstCase(inverse: Float64Array, bounds: Float64Array): ErrorSize {
  const row = (component: number) => {
    let sum = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) sum += Math.abs(inverse[6 * component + leg]) * bounds[leg];
    return sum;
  };
  return {
    translation: [row(0), row(1), row(2)],
    translationLength: largestLength(inverse, 0, bounds),
    rotation: [row(3), row(4), row(5)],
    rotationLength: largestLength(inverse, 3, bounds),
  };
}

function rootSumSquare(inverse: Float64Array, bounds: Float64Array): ErrorSize {
  const row = (component: number) => {
    let sum = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) sum += (inverse[6 * component + leg] * bounds[leg]) ** 2;
    return Math.sqrt(sum);
  };
  const translation: Vec3 = [row(0), row(1), row(2)];
  const rotation: Vec3 = [row(3), row(4), row(5)];
  return {
    translation,
    translationLength: Math.hypot(...translation),
    rotation,
    rotationLength: Math.hypot(...rotation),
  };
}

/**
 * Largest length of three rows of J^-1 times any dl with |dl_i| <= bounds_i. A convex function over a box is largest at a
 * corner; opposite corners are equal, so 32 are tried, in an order where one sign changes at a time (Gray code).
 * @param first row of `inverse` that starts the three: 0 translation, 3 rotation
 */
export function largestLength(inverse: Float64Array, first: number, bounds: Float64Array): number {
  const x = 6 * first;
  const y = x + 6;
  const z = y + 6;
  let sx = 0;
  let sy = 0;
  let sz = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    sx += inverse[x + leg] * bounds[leg];
    sy += inverse[y + leg] * bounds[leg];
    sz += inverse[z + leg] * bounds[leg];
  }
  let largest = sx * sx + sy * sy + sz * sz;
  let signs = 0;
  for (let corner = 1; corner < 32; corner++) {
    // index of the lowest set bit of the counter is the sign to change
    const leg = 31 - Math.clz32(corner & -corner);
    const step = ((signs >> leg) & 1 ? 2 : -2) * bounds[leg];
    signs ^= 1 << leg;
    sx += inverse[x + leg] * step;
    sy += inverse[y + leg] * step;
    sz += inverse[z + leg] * step;
    const square = sx * sx + sy * sy + sz * sz;
    if (square > largest) largest = square;
  }
  return Math.sqrt(largest);
}

/** The motion of the tool for a given change of the legs. */
export interface ToolShift {
  /** [mm, base axes] */
  readonly translation: Vec3;
  /** Rotation vector [rad, base axes]. */
  readonly rotation: Vec3;
}

/** What the same offset does in all six legs together, and in one leg alone. */
export interface OffsetEffects {
  /** Usually a plain change of height, which a new zero removes. */
  readonly allLegs: ToolShift;
  /** Leg 1 first: shift and tilt, which a new zero of height does not remove. */
  readonly oneLeg: readonly ToolShift[];
}

/** Compares an equal length offset [mm] of all legs with the same offset of each leg alone, to first order. */
export function offsetEffects(mechanism: Mechanism, pose: Pose, offset: number): Result<OffsetEffects, JudgementFault> {
  const inverted = invertedJacobian(mechanism, pose);
  if (!inverted.ok) return inverted;
  const { inverse } = inverted.value;
  const shift = (weights: readonly number[]): ToolShift => {
    const x = toolMotion(
      inverse,
      weights.map((weight) => weight * offset),
    );
    return {
      translation: [x[0], x[1], x[2]],
      rotation: [x[3], x[4], x[5]],
    };
  };
  const legs = [0, 1, 2, 3, 4, 5];
  return ok({
    allLegs: shift([1, 1, 1, 1, 1, 1]),
    oneLeg: legs.map((leg) => shift(legs.map((l) => (l === leg ? 1 : 0)))),
  });
}

/** J^-1 dl: three translations [mm] and three rotations [rad] for six leg length changes [mm]. */
export function toolMotion(inverse: Float64Array, changes: ArrayLike<number>): Float64Array {
  const motion = new Float64Array(6);
  for (let row = 0; row < 6; row++)
    for (let leg = 0; leg < LEG_COUNT; leg++) motion[row] += inverse[6 * row + leg] * changes[leg];
  return motion;
}
