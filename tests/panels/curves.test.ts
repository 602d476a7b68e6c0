import { scaleLinear } from 'd3-scale';
import { describe, expect, it } from 'vitest';
import {
  curvePath,
  drawnWalls,
  fittingTicks,
  nearestSample,
  numberAnchor,
  numberScale,
  valueScale,
} from '../../src/panels/curves/curve-scales.ts';
import { causesWords, quantityTitle, usableText, usableWords, valueText } from '../../src/panels/curves/curve-words.ts';
import type { PoseCurve, WallCause } from '../../src/reach/field/curves.ts';
import { tickText } from '../../src/words/numbers.ts';

const limit = (name: 'legTooLong' | 'baseJoint', leg: number): WallCause => ({
  kind: 'limit',
  limit: { limit: name, leg },
});

/** Five samples of an invented quantity along x. */
const curve: PoseCurve = {
  at: Float64Array.of(-20, -10, 0, 10, 20),
  quantities: { stiffness: Float64Array.of(0, 30, 40, 30, 1e9) },
  walls: [
    { at: -15, cause: limit('legTooLong', 2) },
    { at: -15, cause: limit('legTooLong', 5) },
    { at: 15, cause: { kind: 'singular' } },
  ],
  usable: { low: -15, high: 15 },
  ends: {
    low: { at: -15, causes: [limit('legTooLong', 2), limit('legTooLong', 5)] },
    high: { at: 15, causes: [{ kind: 'singular' }] },
  },
};

describe('words of a curve', () => {
  it('name the ends of the usable stretch with what stands there', () => {
    expect(usableWords(curve, 0)).toBe('Usable x: −15.0 (legs 2 and 5 at their longest) to 15.0 (singular pose) mm.');
    expect(usableText(curve, 0)).toBe('−15.0 … 15.0');
    expect(usableText({ ...curve, usable: null, ends: null }, 0)).toBe('none from here');
    expect(usableWords({ ...curve, usable: null, ends: null }, 3)).toContain('No roll is usable from here');
  });

  it('put causes of one kind together', () => {
    const all = [1, 2, 3, 4, 5, 6].map((leg) => limit('baseJoint', leg));
    expect(causesWords(all)).toBe('base joint of every leg');
    expect(causesWords([limit('legTooLong', 3), limit('baseJoint', 1)])).toBe(
      'leg 3 at its longest, base joint of leg 1',
    );
    expect(causesWords([{ kind: 'floor', quantity: 'stiffness' }])).toBe('weakest stiffness below its floor');
    expect(causesWords([{ kind: 'floor', quantity: 'toolError' }])).toBe('worst tool error above its ceiling');
    expect(causesWords([])).toBe('searched no further');
  });

  it('show values in the units of the panels', () => {
    expect(valueText('baseMargin', Math.PI / 18)).toBe('10 deg');
    expect(valueText('leastPush', -4.881)).toBe('−4.88 N');
    expect(valueText('condition', Number.POSITIVE_INFINITY)).toBe('no bound');
    expect(quantityTitle('toolError')).toBe('Worst tool error, mm');
  });
});

describe('scales of a curve', () => {
  it('hold what the usable stretch holds, not what runs away beyond it', () => {
    const y = valueScale([curve], 'stiffness', 100);
    const [low, high] = y.domain();
    expect(low).toBe(0);
    expect(high).toBeGreaterThanOrEqual(40);
    expect(high).toBeLessThan(60);
  });

  it('start a condition at one, and go below zero for a force that changes its sign', () => {
    const of = (quantities: PoseCurve['quantities']): PoseCurve => ({ ...curve, quantities });
    expect(valueScale([of({ condition: Float64Array.of(9, 3, 2, 3, 9) })], 'condition', 100).domain()[0]).toBe(1);
    const [low, high] = valueScale([of({ leastPush: Float64Array.of(1, -2, 1, 2, 3) })], 'leastPush', 100).domain();
    expect(low).toBeLessThanOrEqual(-2);
    expect(high).toBeGreaterThanOrEqual(2);
  });

  it('draw walls of one kind at one place once, and mark those that end the stretch', () => {
    const x = numberScale(curve, 0, 80);
    expect(drawnWalls(curve, 0, x)).toEqual([
      { x: 10, at: -15, kind: 'leg', ends: true },
      { x: 70, at: 15, kind: 'singular', ends: true },
    ]);
  });

  it('break the line where nothing is known', () => {
    const x = numberScale(curve, 0, 80);
    const y = valueScale([curve], 'stiffness', 100);
    const broken = { ...curve, quantities: { stiffness: Float64Array.of(1, 2, Number.NaN, 4, 5) } };
    expect(curvePath(broken, 0, 'stiffness', x, y).match(/M/g)).toHaveLength(2);
    expect(curvePath(curve, 0, 'stiffness', x, y).match(/M/g)).toHaveLength(1);
  });

  it('find the sample nearest to a value, and stop at the ends', () => {
    expect(nearestSample(curve, 6)).toBe(3);
    expect(nearestSample(curve, -99)).toBe(0);
    expect(nearestSample(curve, 99)).toBe(4);
  });
});

describe('numbers along a curve', () => {
  it('are round, in order, and do not touch, however small the picture', () => {
    const letter = 5.9;
    for (const end of [140, 35, 7.5, 180, 0.4])
      for (let width = 40; width <= 420; width += 10) {
        const x = scaleLinear([-end, end], [0, width]);
        const ticks = fittingTicks(x, width);
        const spans = ticks.map((tick) => {
          const wide = letter * tickText(tick, ticks).length;
          const middle = x(tick);
          const from = { start: 0, middle: wide / 2, end: wide }[numberAnchor(middle, width)];
          return [middle - from, middle - from + wide];
        });
        for (let n = 1; n < spans.length; n++)
          expect(spans[n][0] - spans[n - 1][1], `${end} ${width} ${ticks}`).toBeGreaterThan(1);
        if (width >= 110 && end > 1) expect(ticks.length, `${end} ${width}`).toBeGreaterThanOrEqual(3);
      }
  });
});
