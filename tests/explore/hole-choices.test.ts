import { describe, expect, it } from 'vitest';
import { countThreefoldChoices, threefoldChoices, withHoleChoice } from '../../src/explore/hole-choices.ts';
import { jointAngles } from '../../src/kinematics/layout.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { DEG } from '../kinematics/designs.ts';
import { ringPlate, tableSpec } from './layouts.ts';

const circle = (count: number, start_deg = 0) => ({ count, start: start_deg * DEG });

/**
 * Referee: every way to put six base joints and six platform joints into holes with three-fold symmetry, each as the set of its six
 * legs. Two are the same when a turn of everything, or a mirror and a turn, takes the legs of one onto those of the other.
 */
function bruteForceCount(baseCount: number, platformCount: number, start_deg: number): number {
  const baseStep = 360 / baseCount;
  const platformStep = 360 / platformCount;
  const seen = new Set<string>();
  for (let i = 0; i < baseCount / 3; i++) {
    for (let gap = 1; gap < baseCount / 3; gap++) {
      for (let j = 0; j < platformCount / 3; j++) {
        for (let width = 1; width < platformCount / 3; width++) {
          const legs = [0, 120, 240].flatMap((third) => {
            const base = third + i * baseStep;
            const platform = third + start_deg + j * platformStep;
            // the base pair's first leg goes to the platform pair before it, its second to the one behind
            const before =
              platform -
              120 * Math.round((platform + (width * platformStep) / 2 - base - (gap * baseStep) / 2 + 60) / 120);
            return [
              [base, before + width * platformStep],
              [base + gap * baseStep, before + 120],
            ] as const;
          });
          seen.add(canonical(legs));
        }
      }
    }
  }
  return seen.size;
}

function canonical(legs: readonly (readonly [number, number])[]): string {
  const mirrored = legs.map(([base, platform]) => [-base, -platform] as const);
  const round = (angle: number) => ((((Math.round(angle * 1e4) / 1e4) % 360) + 360) % 360).toFixed(3);
  const names = [legs, mirrored].flatMap((set) =>
    set.map(([from]) =>
      set
        .map(([base, platform]) => `${round(base - from)}>${round(platform - from)}`)
        .sort()
        .join(' '),
    ),
  );
  return names.sort()[0];
}

describe('three-fold choices of holes', () => {
  it.each([
    [6, 6, 0],
    [9, 12, 0],
    [12, 12, 0],
    [12, 12, 7],
    [18, 24, 2.5],
    [24, 24, 0],
  ])('on %d and %d holes, platform circle started at %d deg: as many as brute force finds', (base, platform, start) => {
    const choices = threefoldChoices(circle(base), circle(platform, start));
    expect(choices.length).toBe(bruteForceCount(base, platform, start));
    expect(countThreefoldChoices(circle(base), circle(platform, start))).toBe(choices.length);
  });

  it('puts every joint into a hole of its own', () => {
    const holes = [circle(24), circle(18, 3)] as const;
    for (const choice of threefoldChoices(...holes)) {
      const spec = withHoleChoice(tableSpec(), choice);
      for (const [plate, circleOf] of [
        ['base', holes[0]],
        ['platform', holes[1]],
      ] as const) {
        const places = Array.from(jointAngles(spec[plate].ring, plate), (angle) => {
          const place = ((angle - circleOf.start) / (2 * Math.PI)) * circleOf.count;
          expect(Math.abs(place - Math.round(place))).toBeLessThan(1e-9);
          return ((Math.round(place) % circleOf.count) + circleOf.count) % circleOf.count;
        });
        expect(new Set(places).size).toBe(6);
      }
    }
  });

  it('lists no two layouts whose home legs are alike in every way', () => {
    const seen = new Set<string>();
    for (const choice of threefoldChoices(circle(12), circle(12))) {
      const mechanism = compileMechanism(withHoleChoice(tableSpec(), choice));
      const lengths = Array.from(legLengths(mechanism, mechanism.home), (length) => length.toFixed(6)).sort();
      const key = `${choice.baseGap.toFixed(6)} ${choice.platformGap.toFixed(6)} ${lengths.join()}`;
      expect(seen.has(key)).toBe(false);
      seen.add(key);
    }
  });

  it('includes the reference holes and keeps the design otherwise as it is', () => {
    const choices = threefoldChoices(circle(72), circle(72));
    const at20 = choices.filter(
      ({ baseGap, platformGap, baseTurn, platformTurn }) =>
        Math.abs(baseGap - 20 * DEG) < 1e-9 &&
        Math.abs(platformGap - 20 * DEG) < 1e-9 &&
        Math.abs(platformTurn - baseTurn) < 1e-9,
    );
    expect(at20.length).toBe(1);
    expect(at20[0].baseTurn).toBeCloseTo(0, 9);
    const spec = withHoleChoice(tableSpec({ base: ringPlate(90, 55) }), at20[0]);
    expect(spec.base.ring.radius).toBe(90);
    expect(countThreefoldChoices(circle(72), circle(72))).toBe(choices.length);
  });

  it('has none on circles whose holes do not repeat three times', () => {
    expect(threefoldChoices(circle(10), circle(12))).toEqual([]);
    expect(countThreefoldChoices(circle(10), circle(12))).toBe(0);
  });
});
