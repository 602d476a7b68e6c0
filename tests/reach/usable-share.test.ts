import { describe, expect, it } from 'vitest';
import type { UsableReach } from '../../src/reach/columns/usable.ts';
import { againstReach } from '../../src/reach/columns/usable-share.ts';

const usable = (part: Partial<UsableReach>): UsableReach => ({
  reachable: 720_000,
  usable: 360_000,
  usableAnywhere: 540_000,
  errorEstimate: 0.01,
  settled: true,
  step: 2,
  floors: [],
  homeSide: 1,
  reason: null,
  ...part,
});

describe('the usable volume beside the reach', () => {
  it('is its share of the finer measure', () => {
    expect(againstReach(usable({}), 721_000)).toMatchObject({
      reachable: 721_000,
      usable: 360_500,
      usableAnywhere: 540_750,
    });
  });

  it('is never more than the reach by rounding', () => {
    expect(againstReach(usable({ usable: 720_100 }), 721_000).usable).toBe(721_000);
  });

  it('stays nothing where there is no reach', () => {
    expect(againstReach(usable({ reachable: 0, usable: 0 }), 0)).toMatchObject({ usable: 0 });
  });
});
