import { ties, withTies } from './ties.ts';

/** One of the figures to be weighed: its value per layout and which way is better. */
export interface Objective {
  readonly values: ArrayLike<number>;
  readonly better: 'more' | 'less';
}

/**
 * Layouts that no other layout beats: none is at least as good in every objective and better in one, differences of rounding
 * apart ({@link withTies}). Of layouts equal in all objectives the one with the lowest place comes back. Layouts with a value that is not finite never do.
 *
 * Sorted by the first objective, a layout can only be beaten by one before it. With two objectives a running best decides;
 * with three, a staircase of the second and third that is kept sorted (H. T. Kung et al., J. ACM 22, 1975: from memory).
 * @param candidates places to consider
 * @returns places on the front, best in the first objective first
 */
export function paretoFront(candidates: ArrayLike<number>, objectives: readonly Objective[]): number[] {
  const finite = Array.from(candidates).filter((place) =>
    objectives.every(({ values }) => Number.isFinite(values[place])),
  );
  const tied = objectives.map(({ values }) => withTies(Float64Array.from(finite, (place) => values[place])));
  // numbers of the candidates rather than their places: the tied values stand beside each other
  const score = objectives.map(
    ({ better }, n) =>
      (candidate: number) =>
        better === 'more' ? tied[n][candidate] : -tied[n][candidate],
  );
  const places = finite.map((_, candidate) => candidate);
  places.sort((a, b) => {
    for (const of of score) {
      const difference = of(b) - of(a);
      if (difference !== 0) return difference;
    }
    return finite[a] - finite[b];
  });
  const [, second, third] = score;
  const front = !second ? places.slice(0, 1) : third ? frontOfThree(places, second, third) : frontOfTwo(places, second);
  return front.map((candidate) => finite[candidate]);
}

function frontOfTwo(sorted: readonly number[], second: (place: number) => number): number[] {
  let best = Number.NEGATIVE_INFINITY;
  return sorted.filter((place) => {
    const value = second(place);
    if (value <= best) return false;
    best = value;
    return true;
  });
}

/** The staircase holds the undominated (second, third) pairs seen so far: second falling, third rising. */
function frontOfThree(
  sorted: readonly number[],
  second: (place: number) => number,
  third: (place: number) => number,
): number[] {
  const stairs: { second: number; third: number }[] = [];
  return sorted.filter((place) => {
    const b = second(place);
    const c = third(place);
    // first stair whose second is below b; the one before it has the best third among those with second >= b
    let low = 0;
    let high = stairs.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (stairs[middle].second >= b) low = middle + 1;
      else high = middle;
    }
    if (low > 0 && stairs[low - 1].third >= c) return false;
    let beaten = low;
    while (beaten < stairs.length && stairs[beaten].third <= c) beaten++;
    // a stair with the same second and a smaller third is beaten as well
    const from = low > 0 && stairs[low - 1].second === b ? low - 1 : low;
    stairs.splice(from, beaten - from, { second: b, third: c });
    return true;
  });
}

/** The bend of a two-objective front and what it trades. */
export interface Knee {
  /** Place of the layout at the bend. */
  readonly place: number;
  /** Against the end of the front that is best in the first objective: share of the first given up, gain of the second. */
  readonly givenUp: number;
  readonly gain: number;
}

/**
 * The layout of a front farthest from the straight line between the front's ends, both objectives scaled to the front's own
 * range. Null for fronts of fewer than three layouts, which have no bend.
 * @param front as {@link paretoFront} returns it
 */
export function kneeOf(front: readonly number[], first: Objective, second: Objective): Knee | null {
  if (front.length < 3) return null;
  const start = front[0];
  const end = front[front.length - 1];
  const across = (place: number) =>
    (first.values[place] - first.values[start]) / (first.values[end] - first.values[start]);
  const along = (place: number) =>
    (second.values[place] - second.values[start]) / (second.values[end] - second.values[start]);
  const bend = (place: number) => along(place) - across(place);
  let best = start;
  for (const place of front) if (bend(place) > bend(best) && !ties(bend(place), bend(best))) best = place;
  if (best === start || best === end) return null;
  return {
    place: best,
    givenUp: 1 - first.values[best] / first.values[start],
    gain: second.values[best] / second.values[start],
  };
}
