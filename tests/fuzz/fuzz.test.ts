import fc from 'fast-check';
import { describe, it } from 'vitest';
import { SUBJECTS } from './subjects.ts';

const SEED = 20_261_130;

/** Cases of each subject here; `npm run fuzz` runs as many as are asked for. */
const SLICES: Readonly<Record<string, number>> = {
  ...{ designs: 60, links: 200, sweeps: 1000, meshes: 300, tables: 200 },
  ...{ prove: 6, reach: 6, field: 30 },
};

describe('a slice of what is fuzzed', { timeout: 60_000 }, () => {
  it.each(Object.keys(SUBJECTS))(`%s (seed ${SEED})`, async (name) => {
    const { property, end } = await SUBJECTS[name]();
    try {
      await fc.assert(property, { numRuns: SLICES[name], seed: SEED, verbose: 1 });
    } finally {
      end();
    }
  });
});
