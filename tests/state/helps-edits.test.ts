import { describe, expect, it } from 'vitest';
import { compiledDesign } from '../../src/document/compiled.ts';
import { dimensionsOf } from '../../src/reach/dimensions.ts';
import { documentDimensions, stepOf, withDimension } from '../../src/state/judge/helps-edits.ts';
import { degrees } from '../../src/terms/units.ts';
import { sampleDesign } from './sample-design.ts';
import { waveTable } from './wave-table.ts';

const specOf = (document: typeof sampleDesign) => compiledDesign(document).mechanism.spec;

describe('dimensions of a document', () => {
  it('are those of its mechanism, with the same values', () => {
    const own = documentDimensions(sampleDesign);
    const inner = dimensionsOf(specOf(sampleDesign));
    expect(own.map(({ name }) => name)).toEqual(inner.map(({ name }) => name));
    own.forEach(({ value }, n) => {
      expect(value).toBeCloseTo(inner[n].value, 12);
    });
  });

  it('change the document as they change the mechanism', () => {
    for (const { name, value, apply } of dimensionsOf(specOf(sampleDesign))) {
      const changed = value + 0.03 * Math.max(1, Math.abs(value));
      const byDocument = dimensionsOf(specOf(withDimension(sampleDesign, name, changed)));
      const byMechanism = dimensionsOf(apply(changed));
      byDocument.forEach((dimension, n) => {
        expect(dimension.value, `${dimension.name} after ${name}`).toBeCloseTo(byMechanism[n].value, 9);
      });
    }
  });
});

describe('a step of a dimension', () => {
  it('is as long as asked for, up or down', () => {
    const up = stepOf(sampleDesign, 'baseRadius', 5, 1);
    expect(up).toMatchObject({ change: 5, holes: null });
    expect(up?.document.base).toMatchObject({ ring: { radius_mm: 105 } });
    expect(stepOf(sampleDesign, 'legMin', 2, -1)?.document.legs.min_mm).toBe(118);
    expect(stepOf(sampleDesign, 'homeHeight', 1, 1)?.document.home.position_mm).toEqual([0, 0, 151]);
    expect(stepOf(sampleDesign, 'platformTilt', 1, 1)?.document.joints.platform.tilt_deg).toBe(26);
  });

  it('goes to the next holes where joints sit in holes: 72 of them are 5 deg apart', () => {
    const gap = stepOf(waveTable, 'baseGap', 1, 1);
    expect(gap).toMatchObject({ change: 10, holes: 1 });
    expect(gap?.document.base).toMatchObject({ ring: { gap_deg: 30, holes: { count: 72 } } });
    const turn = stepOf(waveTable, 'platformTurn', 2, -1);
    expect(turn?.change).toBe(-5);
    expect(turn?.document.platform).toMatchObject({ ring: { turn_deg: -5 } });
    // and the joints really move by that much
    const [x, y] = compiledDesign(gap?.document ?? waveTable).mechanism.centres.base;
    expect(degrees(Math.atan2(y, x))).toBeCloseTo(-15, 9);
  });

  it('is none past the end of the gap, nor of a dimension that the design does not have', () => {
    const closed = { ...waveTable, base: { ring: { ...ringOf(waveTable), gap_deg: 0 } } };
    expect(stepOf(closed, 'baseGap', 1, -1)).toBeNull();
    expect(stepOf(waveTable, 'nothing', 1, 1)).toBeNull();
  });
});

function ringOf({ base }: typeof waveTable) {
  if (!('ring' in base)) throw new Error('the wave table stands on rings');
  return base.ring;
}
