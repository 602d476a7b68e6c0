import { type ComplexArray, UNKNOWNS } from './leg-quadrics.ts';
import { type PathEnd, projectiveDistance } from './path-end.ts';

/** Two simple ends nearer than this multiple of their accuracies are one and the same. */
const SAME_END = 100;

/**
 * Indices of the ends that cannot all be right:
 * - not decided;
 * - two paths at one simple solution: one of them slipped off its own path on the way;
 * - a simple solution that is not real and whose complex conjugate, which solves the same real equations, was not met.
 *   Which path should have met it is not known, so every end that could hide it is suspected.
 */
export function suspectPaths(ends: readonly PathEnd[]): readonly number[] {
  const suspects = new Set<number>();
  let missing = false;
  ends.forEach((end, index) => {
    if (end.kind === 'failed') suspects.add(index);
    if (end.kind !== 'regular') return;
    for (let other = 0; other < index; other++) {
      if (!same(end, ends[other], ends[other].x)) continue;
      suspects.add(index);
      suspects.add(other);
    }
    const mirrored = conjugate(end.x);
    if (!ends.some((other) => same(end, other, other.x, mirrored))) missing = true;
  });
  if (missing && suspects.size === 0) return ends.map((_, index) => index);
  return [...suspects].sort((a, b) => a - b);
}

/** True when `other` is a simple end at the point of `end` (or at `at` in its stead), as far as their accuracies tell. */
function same(end: PathEnd, other: PathEnd, otherAt: ComplexArray, at: ComplexArray = end.x): boolean {
  if (other.kind !== 'regular') return false;
  return projectiveDistance(at, otherAt) <= SAME_END * (end.accuracy + other.accuracy);
}

const conjugate = (x: ComplexArray): ComplexArray => ({
  re: x.re.slice(0, UNKNOWNS),
  im: x.im.slice(0, UNKNOWNS).map((value) => -value),
});
