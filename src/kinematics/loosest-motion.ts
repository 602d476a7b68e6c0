import type { Svd } from '../math/svd.ts';
import { add, cross, dot, length, scale, unit, type Vec3 } from '../math/vec3.ts';
import { rankOf } from './architecture.ts';
import { LEG_COUNT } from './layout.ts';
import type { Pose } from './pose.ts';

/** Play in the legs for which the loosest motion is quoted [mm]: what ordinary joints and screws have. */
export const REFERENCE_PLAY = 0.1;

/** The platform motion that the legs resist least, per unit of a twist whose scaled length is 1. */
export interface LoosestMotion {
  /** Direction and share of tool point travel, base axes [mm per unit]. */
  readonly translation: Vec3;
  /** Rotation vector, base axes [rad per unit]. */
  readonly rotation: Vec3;
  /** Leg length changes of that unit motion [mm], six: J times the twist. */
  readonly legChanges: Float64Array;
  /** The line it turns about; null for a pure translation. */
  readonly axis: ScrewAxis | null;
  /** How far {@link REFERENCE_PLAY} of change in the most moved leg lets the tool go; null when nothing stops it. */
  readonly withPlay: { readonly travel: number; readonly turn: number } | null;
}

export interface ScrewAxis {
  /** Unit direction, base axes. */
  readonly direction: Vec3;
  /** Point of the axis nearest to the tool point, base axes [mm]. */
  readonly point: Vec3;
  /** Travel along the axis per turn angle [mm/rad]. */
  readonly pitch: number;
}

/** Below this turn per unit motion (characteristic length times angle) a motion is a pure translation: rounding only. */
const PURE_TRANSLATION = 1e-9;

/**
 * Right singular vector of the smallest singular value, as a motion of the tool point and a turn.
 * @param J unscaled Jacobian, flat 6x6
 * @param factors of the scaled Jacobian
 */
export function loosestMotion(J: Float64Array, factors: Svd, characteristicLength: number, pose: Pose): LoosestMotion {
  const twist = lastRightVector(factors, characteristicLength);
  const translation: Vec3 = [twist[0], twist[1], twist[2]];
  const rotation: Vec3 = [twist[3], twist[4], twist[5]];
  const legChanges = new Float64Array(LEG_COUNT);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    for (let column = 0; column < 6; column++) legChanges[leg] += J[6 * leg + column] * twist[column];
  }
  const stopped = rankOf(factors.values) === LEG_COUNT;
  const most = legChanges.reduce((largest, change) => Math.max(largest, Math.abs(change)), 0);
  const step = REFERENCE_PLAY / most;
  return {
    translation,
    rotation,
    legChanges,
    axis: screwAxis(translation, rotation, characteristicLength, pose),
    withPlay: stopped ? { travel: length(translation) * step, turn: length(rotation) * step } : null,
  };
}

/** Unscales the vector and fixes its free sign so that the largest component is positive. */
function lastRightVector({ V }: Svd, characteristicLength: number): Float64Array {
  const scaled = Float64Array.from({ length: 6 }, (_, row) => V[6 * row + 5]);
  const largest = scaled.reduce((best, entry) => (Math.abs(entry) > Math.abs(best) * (1 + 1e-9) ? entry : best), 0);
  const sign = largest < 0 ? -1 : 1;
  return scaled.map((entry, row) => (sign * entry) / (row < 3 ? 1 : characteristicLength));
}

function screwAxis(translation: Vec3, rotation: Vec3, characteristicLength: number, pose: Pose): ScrewAxis | null {
  const turn = length(rotation);
  if (turn * characteristicLength < PURE_TRANSLATION) return null;
  const square = turn * turn;
  return {
    direction: unit(rotation),
    point: add(pose.p_BoTo_B, scale(cross(rotation, translation), 1 / square)),
    pitch: dot(rotation, translation) / square,
  };
}
