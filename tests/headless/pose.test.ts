import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { command, DEMO, VALID } from './command.ts';

const numbers = z.array(z.number());
const vector = z.tuple([z.number(), z.number(), z.number()]);

/** The fields that `pose` promises, and their types. */
const poseOutput = z.object({
  legs: z
    .array(
      z.object({
        leg: z.number(),
        length_mm: z.number(),
        baseTilt_deg: z.number(),
        platformTilt_deg: z.number(),
        violations: z.array(z.enum(['legTooShort', 'legTooLong', 'baseJoint', 'platformJoint'])),
      }),
    )
    .length(6),
  jacobian: z.array(numbers.length(6)).length(6),
  determinant: z.number(),
  characteristicLength_mm: z.number(),
  singularValues: numbers.length(6),
  condition: z.number().nullable(),
  firmness: z.number(),
  magnification: z.number().nullable(),
  rank: z.number(),
  verdict: z.object({ word: z.string(), reason: z.string(), freeMotions: z.number() }),
  loosestMotion: z.object({
    translation_mm: vector,
    rotation_deg: vector,
    legChanges_mm: numbers.length(6),
    axis: z.object({ direction: vector, point_mm: vector, lead_mm: z.number() }).nullable(),
    withPlay: z.object({ play_mm: z.number(), travel_mm: z.number(), turn_deg: z.number() }).nullable(),
  }),
});

async function pose(file: string, at?: string) {
  const printed = await command(at === undefined ? ['pose', file] : ['pose', file, '--at', at]);
  return { ...printed, json: poseOutput.parse(JSON.parse(printed.out)) };
}

// the reference layout: rings of 100 and 70 mm, gaps 20/20, 150 mm high
const R = 100;
const r = 70;
const h = 150;
const d = (40 * Math.PI) / 180;
const length = Math.sqrt(R * R + r * r - 2 * R * r * Math.cos(d) + h * h);
const ring = (radius: number, angle: number, height: number): readonly number[] => [
  radius * Math.cos((angle * Math.PI) / 180),
  radius * Math.sin((angle * Math.PI) / 180),
  height,
];
const cross = (a: readonly number[], b: readonly number[]): readonly number[] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

describe('pose of the reference layout at home', () => {
  it('has the lengths of the law of cosines and is done without a finding', async () => {
    const { code, err, json } = await pose(VALID('rings-without-holes'));
    expect([code, err]).toEqual([0, '']);
    json.legs.forEach((leg, index) => {
      expect(leg.leg).toBe(index + 1);
      expect(leg.length_mm).toBeCloseTo(length, 10);
      expect(leg.violations).toEqual([]);
    });
  });

  it('tilts square mounts by acos(h / L) at both ends, and aimed ones not at all', async () => {
    const square = await pose(VALID('free-joints'));
    const aimed = await pose(VALID('rings-without-holes'));
    const lean = (Math.acos(h / length) * 180) / Math.PI;
    for (const leg of square.json.legs) {
      expect(leg.baseTilt_deg).toBeCloseTo(lean, 9);
      expect(leg.platformTilt_deg).toBeCloseTo(lean, 9);
    }
    for (const leg of aimed.json.legs) expect(Math.max(leg.baseTilt_deg, leg.platformTilt_deg)).toBeLessThan(1e-6);
  });

  it('has the rows [u, b x u] worked out by hand', async () => {
    const { json } = await pose(VALID('rings-without-holes'));
    const base = [-10, 10, 110, 130, 230, 250];
    const platform = [-50, 50, 70, 170, 190, 290];
    json.jacobian.forEach((row, leg) => {
      const a = ring(R, base[leg], 0);
      const b = ring(r, platform[leg], 0);
      const u = [b[0] - a[0], b[1] - a[1], h].map((part) => part / length);
      [...u, ...cross(b, u)].forEach((entry, column) => {
        expect(row[column]).toBeCloseTo(entry, 10);
      });
    });
  });

  it('has the determinant 54 R^3 r^3 h^3 sin^3 d / L^6', async () => {
    // level pose, zero yaw: derived closed form, check 7 of the reference list
    const { json } = await pose(VALID('rings-without-holes'));
    const expected = (54 * R ** 3 * r ** 3 * h ** 3 * Math.sin(d) ** 3) / length ** 6;
    expect(Math.abs(json.determinant) / expected).toBeCloseTo(1, 10);
  });

  it('has the singular values that a general-purpose library finds', async () => {
    const { json } = await pose(VALID('tool-and-length'), '5,-3,185,4,-2,20');
    const scaled = json.jacobian.map((row) => row.map((entry, column) => (column < 3 ? entry : entry / 70)));
    const referee = new SingularValueDecomposition(new Matrix(scaled)).diagonal;
    expect(json.characteristicLength_mm).toBe(70);
    // firmness is the smallest of them, magnification its inverse
    expect(json.firmness).toBeCloseTo(referee[5], 9);
    expect(json.magnification).toBeCloseTo(1 / referee[5], 6);
    json.singularValues.forEach((value, index) => {
      expect(value).toBeCloseTo(referee[index], 9);
    });
    expect(json.condition).toBeCloseTo(referee[0] / referee[5], 9);
    expect(json.rank).toBe(6);
  });

  it('shows a loosest motion that the Jacobian confirms', async () => {
    const { json } = await pose(VALID('tool-and-length'), '5,-3,185,4,-2,20');
    const { translation_mm, rotation_deg, legChanges_mm } = json.loosestMotion;
    const twist = [...translation_mm, ...rotation_deg.map((angle) => (angle * Math.PI) / 180)];
    json.jacobian.forEach((row, leg) => {
      const change = row.reduce((sum, entry, column) => sum + entry * twist[column], 0);
      expect(change).toBeCloseTo(legChanges_mm[leg], 10);
    });
    // the smallest singular value is the change of all legs together for a twist of unit scaled length
    expect(Math.hypot(...legChanges_mm)).toBeCloseTo(json.singularValues[5], 10);
  });
});

describe('findings', () => {
  it('names every limit broken at the asked pose on its own line, and prints the result all the same', async () => {
    const { code, lines, json } = await pose(VALID('rings-without-holes'), '0,0,190,0,0,0');
    // straight up: L^2 = rho^2 + 190^2 for all six
    const tall = Math.sqrt(length ** 2 - h ** 2 + 190 ** 2);
    expect(code).toBe(1);
    expect(lines).toHaveLength(6);
    expect(lines[3]).toBe('Leg 4 would be 200.687 mm; it gets no longer than 200 mm.');
    for (const leg of json.legs) {
      expect(leg.length_mm).toBeCloseTo(tall, 9);
      expect(leg.violations).toEqual(['legTooLong']);
    }
  });

  it('calls a level platform yawed by 90 deg singular at this pose, with null for what is infinite', async () => {
    // check 7: the determinant carries cos(yaw)
    const { code, lines, json } = await pose(VALID('free-joints'), '0,0,150,0,0,90');
    expect(code).toBe(1);
    expect(json.verdict.word).toBe('singular at this pose');
    expect([json.condition, json.rank, json.verdict.freeMotions]).toEqual([null, 5, 1]);
    expect(json.loosestMotion.withPlay).toBeNull();
    expect(lines.find((line) => line.startsWith('The platform'))).toBe(
      `The platform is singular at this pose. ${json.verdict.reason}`,
    );
  });

  it('calls equally spaced rings singular at every pose', async () => {
    const { code, lines, json } = await pose(DEMO('even'), '10,5,150,3,2,1');
    expect(code).toBe(1);
    expect(json.verdict.word).toBe('singular at every pose');
    expect(lines.at(-1)).toMatch(/^The platform is singular at every pose\. The pair gaps add up to 120 deg/);
  });

  it('has none for a nearly singular design', async () => {
    const { code, err, json } = await pose(DEMO('roomy'));
    expect([code, err, json.verdict.word]).toEqual([0, '', 'nearly singular']);
  });
});

describe('a place no leg reaches', () => {
  it.each([
    ['0,0,5000,0,0,0', /--at is 0,0,5000,0,0,0; it must be a place that some leg reaches.* Bring it nearer/],
    ['1000000,0,0,10,20,30', /Bring it nearer/],
  ])('%s is refused on one line', async (at, message) => {
    const { code, out, lines } = await command(['pose', VALID('rings-without-holes'), '--at', at]);
    expect([code, out, lines.length]).toEqual([2, '', 1]);
    expect(lines[0]).toMatch(message);
  });

  it('is a finding, not a refusal, where turning the platform would bring a leg within its stroke', async () => {
    const { code } = await command(['pose', VALID('rings-without-holes'), '--at', '0,0,240,0,0,0']);
    expect(code).toBe(1);
  });

  it('is refused when it is the home of the file', async () => {
    const { code, out, lines } = await command(['pose', VALID('home-out-of-reach')]);
    expect([code, out]).toEqual([2, '']);
    expect(lines[0]).toMatch(/^home\.position_mm is 0, 0, 300; it must be a place that some leg reaches/);
  });
});
