import { neverStop } from '../math/long-work.ts';
import { gridSize } from './grid.ts';
import { type Sweep, sweepRows } from './sweep.ts';

/**
 * Rounds in which the pace is measured, at least and at most, and how long new ones are started [ms]. The first rounds run code that
 * is not compiled yet and take ten times as long as later ones, or more.
 */
const LEAST_ROUNDS = 6;
const MOST_ROUNDS = 40;
const ROUNDS_TIME = 400;

/**
 * Time that a layout of a sweep takes in this thread [s], measured on some layouts spread over it: the least of a few rounds, since
 * the first ones also pay for the compiling of the code, and others may take the processor away.
 */
export function sweepPace(sweep: Sweep, layouts: number): number {
  const size = gridSize(sweep.grid);
  const count = Math.min(size, layouts);
  const indices = Array.from({ length: count }, (_, n) => Math.floor(((n + 0.5) * size) / count));
  const began = performance.now();
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const start = performance.now();
    if (round >= LEAST_ROUNDS && start - began > ROUNDS_TIME) break;
    sweepRows(sweep, indices, neverStop);
    least = Math.min(least, performance.now() - start);
  }
  return least / 1000 / count;
}
