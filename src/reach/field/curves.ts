import { determinantOf } from '../../kinematics/independence.ts';
import { inputFault, type JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { jacobian } from '../../kinematics/jacobian.ts';
import { type LegLimit, LIMIT_COUNT, limitAt, limitMargins } from '../../kinematics/limit-margins.ts';
import { LIMIT_SLACK } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { type Floor, keepsFloor, type QuantityName } from '../../terms/quantities.ts';
import { poseFromNumbers, poseNumbers } from '../pose-box.ts';
import { FieldPoint, QUANTITY_INDEX } from './field-point.ts';
import type { FieldSettings } from './field-settings.ts';

/** What stands in the way at a wall. */
export type WallCause = { readonly kind: 'limit'; readonly limit: LegLimit } | { readonly kind: 'singular' };

/** What ends the usable stretch: a wall, or a quantity that misses its floor. */
export type EndCause = WallCause | { readonly kind: 'floor'; readonly quantity: QuantityName };

/** Where something begins or ends to hold along a curve. */
export interface Wall {
  /** Value of the varied pose number [mm or rad]. */
  readonly at: number;
  readonly cause: WallCause;
}

/** One end of the usable stretch. */
export interface UsableEnd {
  /** The last usable value [mm or rad]. */
  readonly at: number;
  /** All that stands there, more than one where a symmetric layout meets several at once; none: the curve's own end. */
  readonly causes: readonly EndCause[];
}

/** Quantities along one pose number through a pose, the other five kept. */
export interface PoseCurve {
  /** Values of the varied number, evenly spaced [mm or rad]. */
  readonly at: Float64Array;
  /** One array per quantity asked for, inner units. */
  readonly quantities: Readonly<Partial<Record<QuantityName, Float64Array>>>;
  /** In rising order. Walls closer together than the samples can be missed in pairs. */
  readonly walls: readonly Wall[];
  /**
   * The stretch around the present value in which every limit and floor holds and no singular pose is crossed; null when
   * the present pose breaks one of them.
   */
  readonly usable: { readonly low: number; readonly high: number } | null;
  /** What ends that stretch; null when there is none. */
  readonly ends: { readonly low: UsableEnd; readonly high: UsableEnd } | null;
}

/** Which pose number to vary, 0 to 5 (x, y, z, roll, pitch, yaw), and how far. */
export interface CurveRange {
  readonly number: number;
  readonly low: number;
  readonly high: number;
  /** Number of samples, at least 2. */
  readonly samples: number;
  /** Only the singular walls are wanted: the others take most of the time. */
  readonly singularOnly?: boolean;
}

/** What meets its limit within this share of the range beyond an end stands at that end. */
const TOGETHER = 1e-7;

/** Halvings of the stretch between two samples in which the usable stretch ends: down to rounding. */
const BISECTIONS = 50;

/** Steps of the search for a wall at most, and the width at which it ends, as a share of the stretch: rounding. */
const WALL_STEPS = 60;
const WALL_WIDTH = 1e-13;

/** A curve through a pose, with the walls found between its samples. */
export function curveThrough(
  mechanism: Mechanism,
  pose: PoseAngles,
  range: CurveRange,
  settings: FieldSettings,
  wanted: readonly QuantityName[],
  floors: readonly Floor[] = [],
): Result<PoseCurve, JudgementFault> {
  const { number, low, high, samples, singularOnly = false } = range;
  if (!(low < high) || !Number.isFinite(high - low) || !(samples >= 2))
    return failed(
      inputFault(`A curve from ${low} to ${high} with ${samples} samples: it needs a range and two samples.`),
    );
  const line = new Line(mechanism, pose, number, settings, [...wanted, ...floors.map(({ quantity }) => quantity)]);
  const first = line.judge(low);
  if (!first.ok) return first;
  const at = Float64Array.from({ length: samples }, (_, n) => low + ((high - low) * n) / (samples - 1));
  const quantities: Partial<Record<QuantityName, Float64Array>> = {};
  for (const quantity of wanted) quantities[quantity] = new Float64Array(samples);
  const walls: Wall[] = [];
  const broken: boolean[] = [];
  let before = line.margins(at[0]);
  at.forEach((value, n) => {
    const judged = wanted.length > 0 ? line.judge(value) : null;
    for (const quantity of wanted) {
      const array = quantities[quantity];
      if (array && judged?.ok) array[n] = judged.value[QUANTITY_INDEX[quantity]];
    }
    const here = line.margins(value);
    broken.push(line.breaks(here));
    if (n > 0) walls.push(...line.wallsBetween(at[n - 1], before, value, here, singularOnly ? LIMIT_COUNT : 0));
    before = here;
  });
  walls.sort((a, b) => a.at - b.at);
  const ends = usableAround(line, poseNumbers(pose)[number], at, broken, floors);
  return ok({ at, quantities, walls, usable: ends && { low: ends.low.at, high: ends.high.at }, ends });
}

/** The poses of one line, by the value of the varied number. */
class Line {
  private readonly mechanism: Mechanism;
  private readonly numbers: Float64Array;
  private readonly number: number;
  private readonly settings: FieldSettings;
  private readonly wanted: readonly QuantityName[];
  private readonly sign: number;
  /** Kept from place to place while the orientation stays the same. */
  private point: FieldPoint | null = null;

  constructor(
    mechanism: Mechanism,
    pose: PoseAngles,
    number: number,
    settings: FieldSettings,
    wanted: readonly QuantityName[],
  ) {
    this.mechanism = mechanism;
    this.numbers = poseNumbers(pose);
    this.number = number;
    this.settings = settings;
    this.wanted = [...new Set(wanted)];
    this.sign = Math.sign(this.determinantAt(this.numbers[number]));
  }

  private poseAt(value: number) {
    const numbers = Float64Array.from(this.numbers);
    numbers[this.number] = value;
    return poseFromNumbers(numbers);
  }

  private determinantAt(value: number): number {
    return determinantOf(jacobian(this.mechanism, this.poseAt(value)));
  }

  /** Values of all quantities at a place, in the order of QUANTITY_NAMES. */
  judge(value: number): Result<Float64Array, JudgementFault> {
    const pose = this.poseAt(value);
    if (!this.point || this.number >= 3) {
      const point = FieldPoint.create(this.mechanism, pose.R_BP, this.settings, this.wanted);
      if (!point.ok) return point;
      this.point = point.value;
    }
    this.point.judge(...pose.p_BoTo_B);
    return ok(this.point.values);
  }

  /** Everything that can be a wall where it passes zero: the 24 limits with their slack, then the determinant. */
  margins(value: number): Float64Array {
    const margins = new Float64Array(LIMIT_COUNT + 1);
    const pose = this.poseAt(value);
    limitMargins(this.mechanism, pose).forEach((margin, n) => {
      margins[n] = margin + LIMIT_SLACK;
    });
    margins[LIMIT_COUNT] = determinantOf(jacobian(this.mechanism, pose));
    return margins;
  }

  /** Walls between two neighbouring values, from one place in the margins on. */
  wallsBetween(low: number, before: Float64Array, high: number, after: Float64Array, from: number): Wall[] {
    const walls: Wall[] = [];
    for (let n = from; n <= LIMIT_COUNT; n++) {
      if (before[n] >= 0 === after[n] >= 0) continue;
      const at = crossing(low, before[n], high, after[n], (value) => this.margins(value)[n]);
      walls.push({ at, cause: n === LIMIT_COUNT ? { kind: 'singular' } : { kind: 'limit', limit: limitAt(n) } });
    }
    return walls;
  }

  /** Some limit is broken, or a singular pose lies between here and the present one. */
  breaks(margins: Float64Array): boolean {
    if (this.sign === 0 || Math.sign(margins[LIMIT_COUNT]) !== this.sign) return true;
    for (let n = 0; n < LIMIT_COUNT; n++) if (!(margins[n] >= 0)) return true;
    return false;
  }

  /** What does not hold here, taking the present pose's side of the singular ones; empty where everything does. */
  broken(value: number, floors: readonly Floor[]): readonly EndCause[] {
    const margins = this.margins(value);
    const causes: EndCause[] = [];
    for (let n = 0; n < LIMIT_COUNT; n++) if (!(margins[n] >= 0)) causes.push({ kind: 'limit', limit: limitAt(n) });
    if (this.sign === 0 || Math.sign(margins[LIMIT_COUNT]) !== this.sign) causes.push({ kind: 'singular' });
    if (causes.length > 0 || floors.length === 0) return causes;
    const judged = this.judge(value);
    if (!judged.ok) return causes;
    for (const { quantity, value: floor } of floors) {
      if (!keepsFloor(quantity, judged.value[QUANTITY_INDEX[quantity]], floor))
        causes.push({ kind: 'floor', quantity });
    }
    return causes;
  }
}

/** Last place from `good` toward `bad` for which `same` holds. */
function bisect(good: number, bad: number, same: (value: number) => boolean): number {
  let a = good;
  let b = bad;
  for (let n = 0; n < BISECTIONS; n++) {
    const middle = (a + b) / 2;
    if (same(middle)) a = middle;
    else b = middle;
  }
  return a;
}

/**
 * Where a value passes zero between two places at which it has two signs: by the secant through its ends, halving an end that
 * stands still (Illinois method: from memory).
 */
function crossing(low: number, atLow: number, high: number, atHigh: number, value: (at: number) => number): number {
  let [a, fa, b, fb] = [low, atLow, high, atHigh];
  const width = WALL_WIDTH * (high - low);
  let held = 0;
  for (let step = 0; step < WALL_STEPS && Math.abs(b - a) > width; step++) {
    const at = b - (fb * (b - a)) / (fb - fa);
    const found = value(at);
    if (found === 0) return at;
    if (found >= 0 === fb >= 0) {
      if (held === 1) fa /= 2;
      held = 1;
      [b, fb] = [at, found];
    } else {
      if (held === -1) fb /= 2;
      held = -1;
      [a, fa] = [at, found];
    }
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

function usableAround(
  line: Line,
  present: number,
  at: Float64Array,
  broken: readonly boolean[],
  floors: readonly Floor[],
): PoseCurve['ends'] {
  const holds = (value: number) => line.broken(value, floors).length === 0;
  if (!holds(present)) return null;
  const beyond = TOGETHER * (at[at.length - 1] - at[0]);
  const edge = (places: readonly number[], direction: number): UsableEnd => {
    let last = present;
    for (const n of places) {
      const value = at[n];
      if (broken[n] || (floors.length > 0 && !holds(value))) {
        const end = bisect(last, value, holds);
        const causes = line.broken(end + direction * beyond, floors);
        return { at: end, causes: causes.length > 0 ? causes : line.broken(value, floors) };
      }
      last = value;
    }
    return { at: last, causes: [] };
  };
  const places = Array.from(at.keys());
  const below = places.filter((n) => at[n] < present).reverse();
  const above = places.filter((n) => at[n] > present);
  return { low: edge(below, -1), high: edge(above, 1) };
}
