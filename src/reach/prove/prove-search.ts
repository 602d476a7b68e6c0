import { poseBodies, SmallestClearance } from '../../kinematics/clearance.ts';
import type { ClearanceModel } from '../../kinematics/clearance-pairs.ts';
import { determinantOf } from '../../kinematics/independence.ts';
import { jacobian } from '../../kinematics/jacobian.ts';
import {
  type BrokenLimit,
  brokenLimit,
  LIMIT_COUNT,
  limitMargins,
  worstBroken,
} from '../../kinematics/limit-margins.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { nearestPair } from '../../kinematics/nearest-pair.ts';
import { POSE_NUMBERS, poseFromNumbers, writeCorner } from '../pose-box.ts';

/** What refutes a claim at a pose: a broken limit, two bodies nearer than the floor (0 mm: they meet), or legs that depend. */
export type Refutation =
  | ({ readonly kind: 'limit' } & BrokenLimit)
  | {
      readonly kind: 'bodies';
      readonly pair: { readonly a: string; readonly b: string } | null;
      readonly distance: number;
    }
  | { readonly kind: 'singular' };

/** A pose that breaks something, and what it breaks. */
export interface CounterExample {
  /** Six pose numbers. */
  readonly numbers: Float64Array;
  readonly reason: Refutation;
}

/** Step of the local search as a share of the box, first and last. */
const FIRST_STEP = 0.5;
const LAST_STEP = 1e-3;

/** Exact margins at single poses, and a search for the poses of a box where they are least. */
export class CounterSearch {
  private readonly mechanism: Mechanism;
  private readonly clearance: SmallestClearance | null;
  private readonly floor: number;

  constructor(mechanism: Mechanism, model: ClearanceModel | null, floor: number) {
    this.mechanism = mechanism;
    this.clearance = model ? new SmallestClearance(model) : null;
    this.floor = floor;
  }

  private margins(numbers: Float64Array): Float64Array {
    return limitMargins(this.mechanism, poseFromNumbers(numbers));
  }

  /** The limit that a pose breaks most; null when all hold. */
  unreachable(numbers: Float64Array): Refutation | null {
    const margins = this.margins(numbers);
    const worst = worstBroken(margins);
    return worst === null ? null : { kind: 'limit', ...brokenLimit(this.mechanism, worst, margins[worst]) };
  }

  /** The two bodies that come closer than the floor; null when none do. */
  blocked(numbers: Float64Array): Refutation | null {
    const distance = this.distance(numbers);
    if (!this.clearance || distance >= this.floor) return null;
    const pair = nearestPair(this.clearance.model, distance);
    return { kind: 'bodies', pair: pair && { a: pair.a, b: pair.b }, distance: Math.max(0, distance) };
  }

  private distance(numbers: Float64Array): number {
    if (!this.clearance) return Number.POSITIVE_INFINITY;
    poseBodies(this.clearance.model, poseFromNumbers(numbers));
    return this.clearance.now();
  }

  determinant(numbers: Float64Array): number {
    return determinantOf(jacobian(this.mechanism, poseFromNumbers(numbers)));
  }

  /** Searches the box for an unreachable pose: all corners, then downhill from the worst corner of each limit. */
  findUnreachable(centre: Float64Array, half: Float64Array): CounterExample | null {
    const found = this.searchFrom(
      centre,
      half,
      (numbers) => this.margins(numbers),
      LIMIT_COUNT,
      (numbers) => this.unreachable(numbers),
    );
    return found;
  }

  findBlocked(centre: Float64Array, half: Float64Array): CounterExample | null {
    if (!this.clearance) return null;
    const value = (numbers: Float64Array) => Float64Array.of(this.distance(numbers));
    return this.searchFrom(centre, half, value, 1, (numbers) => this.blocked(numbers));
  }

  /** A pose across a singular one from the centre, narrowed down to the singular pose between the two. */
  findSingular(centre: Float64Array, half: Float64Array): CounterExample | null {
    const sign = Math.sign(this.determinant(centre));
    if (sign === 0) return { numbers: Float64Array.from(centre), reason: SINGULAR };
    const value = (numbers: Float64Array) => Float64Array.of(sign * this.determinant(numbers));
    const across = this.searchFrom(centre, half, value, 1, (numbers) =>
      sign * this.determinant(numbers) <= 0 ? SINGULAR : null,
    );
    if (!across) return null;
    let low = Float64Array.from(centre);
    let high = across.numbers;
    for (let step = 0; step < BISECTIONS; step++) {
      const middle = low.map((entry, n) => (entry + high[n]) / 2);
      if (sign * this.determinant(middle) > 0) low = middle;
      else high = middle;
    }
    return { numbers: high, reason: SINGULAR };
  }

  /** First broken pose met, by corners first and then by a compass search for the least of each value. */
  private searchFrom(
    centre: Float64Array,
    half: Float64Array,
    valuesAt: (numbers: Float64Array) => Float64Array,
    count: number,
    broken: (numbers: Float64Array) => Refutation | null,
  ): CounterExample | null {
    const starts = Array.from({ length: count }, () => Float64Array.from(centre));
    const least = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
    const numbers = new Float64Array(POSE_NUMBERS);
    for (let corner = -1; corner < 64; corner++) {
      if (corner < 0) numbers.set(centre);
      else writeCorner(centre, half, corner, numbers);
      const reason = broken(numbers);
      if (reason) return { numbers: Float64Array.from(numbers), reason };
      valuesAt(numbers).forEach((value, n) => {
        if (value >= least[n]) return;
        least[n] = value;
        starts[n].set(numbers);
      });
    }
    for (let n = 0; n < count; n++) {
      const lowest = compass(centre, half, starts[n], least[n], (at) => valuesAt(at)[n]);
      const reason = broken(lowest);
      if (reason) return { numbers: lowest, reason };
    }
    return null;
  }
}

const SINGULAR: Refutation = { kind: 'singular' };

/** Halvings between a pose on either side of a singular one: down to rounding. */
const BISECTIONS = 60;

/** Compass search for a minimum within the box: tries a step along each number, halves the steps when none helps. */
function compass(
  centre: Float64Array,
  half: Float64Array,
  start: Float64Array,
  startValue: number,
  value: (numbers: Float64Array) => number,
): Float64Array {
  const here = Float64Array.from(start);
  const trial = new Float64Array(POSE_NUMBERS);
  let best = startValue;
  for (let step = FIRST_STEP; step > LAST_STEP; ) {
    let improved = false;
    for (let axis = 0; axis < POSE_NUMBERS; axis++) {
      for (const sign of [-1, 1]) {
        if (half[axis] === 0) continue;
        trial.set(here);
        const wanted = here[axis] + sign * step * half[axis];
        trial[axis] = Math.min(Math.max(wanted, centre[axis] - half[axis]), centre[axis] + half[axis]);
        const found = value(trial);
        if (found >= best) continue;
        best = found;
        here.set(trial);
        improved = true;
      }
    }
    if (!improved) step /= 2;
  }
  return here;
}
