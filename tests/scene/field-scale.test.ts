import { BufferAttribute, BufferGeometry } from 'three';
import { describe, expect, it } from 'vitest';
import type { FieldPicture } from '../../src/jobs/field-picture.ts';
import type { ReachPicture } from '../../src/jobs/reach-picture.ts';
import { diverging } from '../../src/scene/colour/diverging.ts';
import { fieldScale, fieldShare, POINT_MARK, writeFieldColours } from '../../src/scene/colour/field-scale.ts';
import { paintPart } from '../../src/scene/drawing/reach-drawing.ts';
import { missedFloors, PaintKeeper } from '../../src/scene/model/reach-paint.ts';
import { colourTable } from '../../src/state/colour/colour-table.ts';
import { QUANTITY_NAMES, shownUnit } from '../../src/terms/quantities.ts';
import { sampleDesign } from '../state/sample-design.ts';

const range = (min: number, low: number, high: number, max: number) => ({ min, max, low, high, count: 100 });

describe('the scale of a quantity', () => {
  it('has its lowest tick at one end and its highest at the other, in rising order', () => {
    for (const quantity of QUANTITY_NAMES) {
      const scale = fieldScale(quantity, range(0.9, 1.3, 7.7, 12));
      const shares = scale.ticks.map(({ share }) => share);
      expect(shares).toEqual([...shares].sort((a, b) => a - b));
      expect(shares[0]).toBeGreaterThanOrEqual(0);
      expect(shares.at(-1)).toBeCloseTo(1, 9);
      expect(fieldShare(scale, scale.low)).toBeCloseTo(0, 12);
      expect(fieldShare(scale, scale.high)).toBeCloseTo(1, 12);
    }
  });

  it('goes by equal factors where values spread widely', () => {
    const scale = fieldScale('legForce', range(4, 5, 480, 900));
    expect(scale.kind).toBe('logarithmic');
    expect(fieldShare(scale, 40) - fieldShare(scale, 20)).toBeCloseTo(
      fieldShare(scale, 200) - fieldShare(scale, 100),
      12,
    );
    expect(scale.ticks.at(-1)?.text).toMatch(/\+$/);
  });

  it('has its neutral at zero where a value has a sign', () => {
    for (const scale of [fieldScale('leastPush', range(-9, -3, 8, 11)), fieldScale('clearance', range(-9, -3, 8, 8))]) {
      expect(scale.kind).toBe('signed');
      expect(fieldShare(scale, 0)).toBeCloseTo(0.5, 12);
      expect(scale.ticks.find(({ text }) => text === '0')?.share).toBeCloseTo(0.5, 12);
    }
    expect(fieldScale('clearance', range(0, 1, 8, 9))).toMatchObject({ kind: 'linear', low: 0 });
  });

  it('writes evenly spaced ticks with equally many digits, the open end too', () => {
    const texts = fieldScale('toolError', range(0.16, 0.16, 0.199, 0.21)).ticks.map(({ text }) => text);
    expect(texts).toEqual(['0.16', '0.17', '0.18', '0.19', '0.20+']);
    expect(fieldScale('leastPush', range(-0.5, -0.5, 1, 1)).ticks.map(({ text }) => text)).toContain('−0.5');
  });

  it('names angles in degrees', () => {
    const scale = fieldScale('baseMargin', range(0, 0.01, 0.43, 0.432));
    expect(shownUnit('baseMargin')).toBe('deg');
    expect(scale.ticks.map(({ text }) => text)).toEqual(['0', '5', '10', '15', '20', '25']);
    expect(scale.high).toBeCloseTo((25 * Math.PI) / 180, 9);
  });

  it('stands values that are all the same', () => {
    for (const quantity of QUANTITY_NAMES)
      for (const value of [0, 3])
        expect(Number.isFinite(fieldShare(fieldScale(quantity, range(value, value, value, value)), value))).toBe(true);
  });
});

describe('the diverging map', () => {
  it('is lightest in the middle, orange below and purple above', () => {
    const table = colourTable(diverging);
    const sum = (i: number) => table[4 * i] + table[4 * i + 1] + table[4 * i + 2];
    expect(sum(128)).toBeGreaterThan(sum(40));
    expect(sum(128)).toBeGreaterThan(sum(215));
    expect(table[4 * 40]).toBeGreaterThan(table[4 * 40 + 2]);
    expect(table[4 * 215 + 2]).toBeGreaterThan(table[4 * 215]);
    expect(diverging(-1)).toBe(diverging(0));
  });
});

const scale = fieldScale('stiffness', range(100, 100, 200, 200));

describe('the colours of points', () => {
  it('are places on the map, with marks for missed floors and for no value', () => {
    const shares = new Uint8Array(4);
    const marks = new Uint8Array(4);
    writeFieldColours(Float32Array.of(100, 140, 1e9, Number.NaN), scale, Uint8Array.of(1, 0, 0, 1), shares, marks);
    expect([...shares]).toEqual([0, 102, 255, 0]);
    expect([...marks]).toEqual([POINT_MARK.missed, POINT_MARK.plain, POINT_MARK.plain, POINT_MARK.none]);
  });

  it('go back to firmness when no quantity is shown', () => {
    const geometry = new BufferGeometry();
    const points = {
      positions: new Float64Array(9),
      magnifications: new Float64Array(3).fill(1),
      limits: new Uint8Array(3),
    };
    const read = (name: string) => {
      const attribute = geometry.getAttribute(name);
      if (!(attribute instanceof BufferAttribute)) throw new Error(name);
      return [...attribute.array.slice(0, 3)];
    };
    paintPart(geometry, points, scale, { values: Float32Array.of(140, 200, 100), missed: Uint8Array.of(0, 1, 0) });
    expect([read('share'), read('mark')]).toEqual([
      [102, 255, 0],
      [0, 1, 0],
    ]);
    paintPart(geometry, points, null, { values: null, missed: null });
    expect([read('share'), read('mark')]).toEqual([
      [0, 0, 0],
      [0, 0, 0],
    ]);
  });
});

describe('missed floors', () => {
  const values = { stiffness: Float32Array.of(90, 110, Number.NaN), toolError: Float32Array.of(0.1, 0.3, 0.1) };

  it('are those on the wrong side, and those without a value', () => {
    const missed = (floors: Parameters<typeof missedFloors>[1]) => [...missedFloors(values, floors, 3)];
    expect(missed([{ quantity: 'stiffness', value: 100 }])).toEqual([1, 0, 1]);
    expect(missed([{ quantity: 'toolError', value: 0.2 }])).toEqual([0, 1, 0]);
    expect(missed([{ quantity: 'legForce', value: 5 }])).toEqual([0, 0, 0]);
  });
});

describe('the paint of the reach', () => {
  const points = { positions: new Float64Array(3), magnifications: new Float64Array(1), limits: new Uint8Array(1) };
  const picture: ReachPicture = {
    detail: 'fine',
    cloud: points,
    shell: { ...points, normals: new Float64Array(3), indices: new Uint32Array(0) },
  };
  const field: FieldPicture = {
    cloud: { stiffness: Float32Array.of(150) },
    shell: { stiffness: Float32Array.of(50) },
    ranges: { stiffness: range(50, 50, 150, 150) },
    singular: 0,
  };
  const state = { field: { finished: { subject: { picture }, value: field }, working: false, failure: null } };
  const floored = { ...sampleDesign, floors: { stiffness_N_mm: 100 } };

  it('is kept as long as nothing changes, and is only for the picture that it was computed for', () => {
    const keeper = new PaintKeeper();
    const first = keeper.follow(picture, state, 'stiffness', floored);
    expect(keeper.follow(picture, state, 'stiffness', { ...floored, name: 'other' })).toBe(first);
    expect([first?.cloud.missed?.[0], first?.shell.missed?.[0]]).toEqual([0, 1]);
    expect(keeper.follow({ ...picture }, state, 'stiffness', floored)).toBeNull();
  });

  it('marks floors whatever colours the reach, and is nothing without either', () => {
    const keeper = new PaintKeeper();
    expect(keeper.follow(picture, state, 'firmness', floored)).toMatchObject({ scale: null });
    expect(keeper.follow(picture, state, 'firmness', sampleDesign)).toBeNull();
    expect(keeper.follow(picture, state, 'stiffness', sampleDesign)?.cloud.missed).toBeNull();
    expect(keeper.follow(picture, state, 'legForce', sampleDesign)).toBeNull();
  });
});
