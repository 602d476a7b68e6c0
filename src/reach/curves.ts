import { determinantOf } from '../kinematics/independence.ts';
import { inputFault, type JudgementFault } from '../kinematics/inverse-jacobian.ts';
import { jacobian } from '../kinematics/jacobian.ts';
import { ballShapes, type JointShapes } from '../kinematics/joint-limits.ts';
import { type LegLimit, LIMIT_COUNT, limitAt, limitMargins } from '../kinematics/limit-margins.ts';
import { LIMIT_SLACK } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { FieldPoint, type FieldSettings, QUANTITY_INDEX } from './field-point.ts';
import { type FieldQuantity, QUANTITY_MEANING } from './field-quantities.ts';
import { poseFromNumbers, poseNumbers } from './pose-box.ts';
import type { Floor } from './usable-cutter.ts';

/** Where something begins or ends to hold along a curve. */
export interface Wall {
  /** Value of the varied pose number [mm or rad]. */
  readonly at: number;
  readonly cause: { readonly kind: 'limit'; readonly limit: LegLimit } | { readonly kind: 'singular' };
}

/** Quantities along one pose number through a pose, the other five kept. */
export interface PoseCurve {
  /** Values of the varied number, evenly spaced [mm or rad]. */
  readonly at: Float64Array;
  /** One array per quantity asked for, inner units. */
  readonly quantities: Readonly<Partial<Record<FieldQuantity, Float64Array>>>;
  /** In rising order. Walls closer together than the samples can be missed in pairs. */
  readonly walls: readonly Wall[];
  /**
   * The stretch around the present value in which every limit and floor holds and no singular pose is crossed; null when
   * the present pose breaks one of them.
   */
  readonly usable: { readonly low: number; readonly high: number } | null;
}

/** Which pose number to vary, 0 to 5 (x, y, z, roll, pitch, yaw), and how far. */
export interface CurveRange {
  readonly number: number;
  readonly low: number;
  readonly high: number;
  /** Number of samples, at least 2. */
  readonly samples: number;
}

/** Halvings of the stretch between two samples in which a wall lies: down to rounding. */
const BISECTIONS = 50;

/** A curve through a pose, with the walls found between its samples. */
export function curveThrough(
  mechanism: Mechanism,
  pose: PoseAngles,
  range: CurveRange,
  settings: FieldSettings,
  wanted: readonly FieldQuantity[],
  floors: readonly Floor[] = [],
): Result<PoseCurve, JudgementFault> {
  const { number, low, high, samples } = range;
  if (!(low < high) || !Number.isFinite(high - low) || !(samples >= 2))
    return failed(
      inputFault(`A curve from ${low} to ${high} with ${samples} samples: it needs a range and two samples.`),
    );
  const line = new Line(mechanism, pose, number, settings, [...wanted, ...floors.map(({ quantity }) => quantity)]);
  const first = line.judge(low);
  if (!first.ok) return first;
  const at = Float64Array.from({ length: samples }, (_, n) => low + ((high - low) * n) / (samples - 1));
  const quantities: Partial<Record<FieldQuantity, Float64Array>> = {};
  for (const quantity of wanted) quantities[quantity] = new Float64Array(samples);
  const walls: Wall[] = [];
  let before = line.signs(at[0]);
  at.forEach((value, n) => {
    const judged = line.judge(value);
    if (!judged.ok) return;
    for (const quantity of wanted) {
      const array = quantities[quantity];
      if (array) array[n] = judged.value[QUANTITY_INDEX[quantity]];
    }
    if (n === 0) return;
    const here = line.signs(value);
    walls.push(...line.wallsBetween(at[n - 1], before, value, here));
    before = here;
  });
  walls.sort((a, b) => a.at - b.at);
  return ok({ at, quantities, walls, usable: usableAround(line, poseNumbers(pose)[number], at, floors) });
}

/** The poses of one line, by the value of the varied number. */
class Line {
  private readonly mechanism: Mechanism;
  private readonly numbers: Float64Array;
  private readonly number: number;
  private readonly settings: FieldSettings;
  private readonly shapes: JointShapes;
  private readonly wanted: readonly FieldQuantity[];
  private readonly sign: number;
  /** Kept from place to place while the orientation stays the same. */
  private point: FieldPoint | null = null;

  constructor(
    mechanism: Mechanism,
    pose: PoseAngles,
    number: number,
    settings: FieldSettings,
    wanted: readonly FieldQuantity[],
  ) {
    this.mechanism = mechanism;
    this.numbers = poseNumbers(pose);
    this.number = number;
    this.settings = settings;
    this.shapes = settings.shapes ?? ballShapes(mechanism);
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

  /** Values of all quantities at a place, in the order of FIELD_QUANTITIES. */
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

  /** Signs of everything that can be a wall: the 24 limits, then the determinant. */
  signs(value: number): Float64Array {
    const signs = new Float64Array(LIMIT_COUNT + 1);
    limitMargins(this.mechanism, this.shapes, this.poseAt(value)).forEach((margin, n) => {
      signs[n] = margin >= -LIMIT_SLACK ? 1 : -1;
    });
    signs[LIMIT_COUNT] = Math.sign(this.determinantAt(value));
    return signs;
  }

  wallsBetween(low: number, before: Float64Array, high: number, after: Float64Array): Wall[] {
    const walls: Wall[] = [];
    for (let n = 0; n <= LIMIT_COUNT; n++) {
      if (before[n] === after[n]) continue;
      const at = bisect(low, high, (value) => this.signs(value)[n] === before[n]);
      walls.push({ at, cause: n === LIMIT_COUNT ? { kind: 'singular' } : { kind: 'limit', limit: limitAt(n) } });
    }
    return walls;
  }

  /** Every limit and floor holds here, on the present pose's side of the singular ones. */
  holds(value: number, floors: readonly Floor[]): boolean {
    const signs = this.signs(value);
    if (signs[LIMIT_COUNT] !== this.sign || this.sign === 0) return false;
    for (let n = 0; n < LIMIT_COUNT; n++) if (signs[n] < 0) return false;
    if (floors.length === 0) return true;
    const judged = this.judge(value);
    return (
      judged.ok &&
      floors.every(({ quantity, value: floor }) => {
        const sense = QUANTITY_MEANING[quantity].better === 'more' ? 1 : -1;
        return sense * (judged.value[QUANTITY_INDEX[quantity]] - floor) >= 0;
      })
    );
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

function usableAround(line: Line, present: number, at: Float64Array, floors: readonly Floor[]): PoseCurve['usable'] {
  const holds = (value: number) => line.holds(value, floors);
  if (!holds(present)) return null;
  const edge = (places: readonly number[]) => {
    let last = present;
    for (const value of places) {
      if (!holds(value)) return bisect(last, value, holds);
      last = value;
    }
    return last;
  };
  const below = Array.from(at.filter((value) => value < present)).reverse();
  return { low: edge(below), high: edge(Array.from(at.filter((value) => value > present))) };
}
