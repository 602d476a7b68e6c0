import { describe, expect, it } from 'vitest';
import { STANDARD_SWEEP, sweepAxes, sweepOptions, sweepSize } from '../../src/document/sweep-file.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import { ExploreJobs } from '../../src/jobs/explore-jobs.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { tableSpec } from '../explore/layouts.ts';

/** Layouts timed here, evenly over the sweep. */
const TIMED = 2000;

describe('the pace of a sweep told in advance', () => {
  it('is that of the sweep itself, also where nothing has run before', () => {
    const sweep = {
      design: tableSpec(),
      grid: sweepAxes(STANDARD_SWEEP),
      options: sweepOptions(STANDARD_SWEEP),
    };
    const told = new ExploreJobs().pace(sweep, 48);
    // referee: the time that rows of the same sweep really take, warmed up; other work on the machine may slow either down
    const indices = Array.from({ length: TIMED }, (_, n) => Math.floor((n * sweepSize(STANDARD_SWEEP)) / TIMED));
    const taken = [0, 1, 2].map(() => {
      const start = performance.now();
      sweepRows(sweep, indices, neverStop);
      return (performance.now() - start) / 1000 / TIMED;
    });
    expect(told).toBeLessThan(4 * Math.max(...taken));
    expect(told).toBeGreaterThan(Math.min(...taken) / 4);
  });
});
