import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { command, DEMO, VALID } from './command.ts';

const corner = z.tuple([z.number(), z.number(), z.number()]);
const reachOutput = z.object({
  volume_cm3: z.number(),
  errorEstimate: z.number(),
  homeConnected_cm3: z.number(),
  bounds_mm: z.object({ low: corner, high: corner }).nullable(),
  binding: z.object({
    legTooShort: z.number(),
    legTooLong: z.number(),
    baseJoint: z.number(),
    platformJoint: z.number(),
  }),
});

async function reach(file: string, ...options: readonly string[]) {
  const printed = await command(['reach', file, ...options]);
  return { ...printed, json: reachOutput.parse(JSON.parse(printed.out)) };
}

describe('reach of two equal, evenly spaced rings, level', () => {
  // All six legs are parallel, so the six shells and twelve cones are one: a piece of a ball shell inside a cone.
  // Derived, check 11 of the reference list: volume 2 pi / 3 (1 - cos t) (max^3 - min^3).
  const t = (25 * Math.PI) / 180;
  const [min, max] = [120, 200];
  const outer = 2 * Math.PI * (1 - Math.cos(t)) * max ** 2;
  const inner = 2 * Math.PI * (1 - Math.cos(t)) * min ** 2;
  const cone = Math.PI * Math.sin(t) * (max ** 2 - min ** 2);
  const volume = (((2 * Math.PI) / 3) * (1 - Math.cos(t)) * (max ** 3 - min ** 3)) / 1000;

  it.each([undefined, '0.02', '0.0005'])('has the volume of the closed form, asked error %s', async (error) => {
    const { json } = await reach(DEMO('even'), ...(error === undefined ? [] : ['--error', error]));
    const asked = Number(error ?? 0.005);
    expect(Math.abs(json.volume_cm3 / volume - 1)).toBeLessThan(asked);
    expect(json.errorEstimate).toBeLessThanOrEqual(asked);
    expect(json.homeConnected_cm3).toBeCloseTo(json.volume_cm3, 6);
  });

  it('has its box', async () => {
    const { json } = await reach(DEMO('even'));
    const across = max * Math.sin(t);
    const expected = { low: [-across, -across, min * Math.cos(t)], high: [across, across, max] };
    // the box is felt out by columns: 0.3 mm of 170
    [...(json.bounds_mm?.low ?? []), ...(json.bounds_mm?.high ?? [])].forEach((value, index) => {
      expect(Math.abs(value - [...expected.low, ...expected.high][index])).toBeLessThan(0.3);
    });
  });

  it('shares its boundary among the limits by area', async () => {
    const { binding } = (await reach(DEMO('even'))).json;
    const area = outer + inner + cone;
    expect(Math.abs(binding.legTooLong - outer / area)).toBeLessThan(0.02);
    expect(Math.abs(binding.legTooShort - inner / area)).toBeLessThan(0.02);
    // base and platform cones lie on each other here
    expect(Math.abs(binding.baseJoint + binding.platformJoint - cone / area)).toBeLessThan(0.02);
    expect(Object.values(binding).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  it('is a finding, since what is reached cannot be held', async () => {
    const { code, lines } = await reach(DEMO('even'));
    expect(code).toBe(1);
    expect(lines).toEqual(['The platform is singular at every pose: what it reaches it cannot hold.']);
  });
});

it('ranks the demos as their notes say: the further they reach, the less they hold', async () => {
  const [steady, roomy, even] = await Promise.all(['steady', 'roomy', 'even'].map((name) => reach(DEMO(name))));
  expect(steady.code).toBe(0);
  expect(roomy.code).toBe(0);
  expect(roomy.json.volume_cm3).toBeGreaterThan(1.4 * steady.json.volume_cm3);
  expect(even.json.volume_cm3).toBeGreaterThan(roomy.json.volume_cm3);
});

it('turns the platform before measuring', async () => {
  const level = await reach(DEMO('steady'));
  const given = await reach(DEMO('steady'), '--orientation', '0,0,0');
  const tilted = await reach(DEMO('steady'), '--orientation', '8,-4,10');
  expect(given.json).toEqual(level.json);
  expect(tilted.json.volume_cm3).toBeLessThan(0.8 * level.json.volume_cm3);
  // just beyond the box `pose` must find a broken limit
  const { low, high } = tilted.json.bounds_mm ?? { low: [0, 0, 0], high: [0, 0, 0] };
  const outside = await command([
    'pose',
    DEMO('steady'),
    '--at',
    `${high[0] + 2},${(low[1] + high[1]) / 2},150,8,-4,10`,
  ]);
  expect(outside.code).toBe(1);
});

describe('over a range of orientations', () => {
  const beside = z.object({
    range: z.object({ tilt_deg: z.number(), yaw_deg: z.number(), sampledOrientations: z.number() }),
    atMiddle: z.object({ volume_cm3: z.number(), homeConnected_cm3: z.number() }),
  });

  it('reaches less than at its middle, and less the wider the range', async () => {
    const level = await reach(DEMO('steady'));
    const five = await reach(DEMO('steady'), '--tilt-range', '5');
    const ten = await reach(DEMO('steady'), '--tilt-range', '10');
    const turned = await reach(DEMO('steady'), '--tilt-range', '5', '--yaw-range', '10');
    expect([level, five, ten, turned].map(({ code }) => code)).toEqual([0, 0, 0, 0]);
    expect(five.json.volume_cm3).toBeLessThan(0.9 * level.json.volume_cm3);
    expect(ten.json.volume_cm3).toBeLessThan(0.9 * five.json.volume_cm3);
    expect(turned.json.volume_cm3).toBeLessThan(five.json.volume_cm3);
    const { range, atMiddle } = beside.parse(JSON.parse(turned.out));
    expect([range.tilt_deg, range.yaw_deg].map((angle) => Math.round(angle * 1e9) / 1e9)).toEqual([5, 10]);
    expect(atMiddle.volume_cm3).toBe(level.json.volume_cm3);
  });

  it('holds no point that fails at an orientation of the range', async () => {
    const { json } = await reach(DEMO('steady'), '--tilt-range', '8');
    const { low, high } = json.bounds_mm ?? { low: [0, 0, 0], high: [0, 0, 0] };
    // along the axis of symmetry the common reach is a stretch: its middle holds at 8 deg of tilt in twelve directions
    const middle = (low[2] + high[2]) / 2;
    for (let spoke = 0; spoke < 12; spoke++) {
      const toward = (spoke * Math.PI) / 6;
      const at = `0,0,${middle},${8 * Math.cos(toward)},${8 * Math.sin(toward)},0`;
      expect((await command(['pose', DEMO('steady'), '--at', at])).lines).toEqual([]);
    }
  });
});

it('says why nothing is connected with home, or reachable at all', async () => {
  const home = await reach(VALID('home-out-of-reach'));
  expect([home.code, home.json.homeConnected_cm3]).toEqual([1, 0]);
  expect(home.json.volume_cm3).toBeGreaterThan(0);
  expect(home.lines).toEqual([
    'Nothing is connected with home: it breaks limits at this orientation (leg too long, legs 1 2 3 4 5 6).',
  ]);
  const nothing = await reach(DEMO('steady'), '--orientation', '60,-5,10');
  expect([nothing.code, nothing.json.volume_cm3, nothing.json.bounds_mm]).toEqual([1, 0, null]);
  expect(nothing.lines).toHaveLength(1);
  expect(nothing.lines[0]).toMatch(/^Nothing is reachable: at the best place the limits miss by [\d.]+ mm \(/);
});

it.each([
  ['--error', '0', '--error is 0; it must be from 0.000001 to 0.5. Raise it to 0.000001 or more.'],
  ['--error', 'small', '--error is "small"; it must be one number. Write --error share.'],
  [
    '--orientation',
    '0,0',
    '--orientation is "0,0"; it must be 3 numbers roll,pitch,yaw. Write --orientation roll,pitch,yaw.',
  ],
])('refuses %s %s', async (option, value, message) => {
  const { code, out, lines } = await command(['reach', DEMO('steady'), option, value]);
  expect([code, out, lines]).toEqual([2, '', [message]]);
});
