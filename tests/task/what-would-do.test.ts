import { expect, it } from 'vitest';
import { command } from '../headless/command.ts';
import { judge, rings } from './task-command.ts';

const legs = { min_mm: 150, max_mm: 200, barrelDiameter_mm: 22, rodDiameter_mm: 10 };
const ball = (tilt_deg: number) => ({ kind: 'ball', tilt_deg, mount: 'aimed' });

const TABLE = (more: object = {}) =>
  rings([120, 80], [48, 24], 225, {
    legs,
    joints: { base: ball(25), platform: ball(25) },
    tool: { point_mm: [0, 0, 60] },
    ...more,
  });

interface Change {
  readonly change: string;
  readonly from: number;
  readonly to: number | null;
}

async function wouldDo(design: object, box: object) {
  const named = { ...design, task: { requirements: [{ name: 'Rock', box }] } };
  const { code, out, err } = await command(['task', '-'], JSON.stringify(named));
  if (code === 2) throw new Error(err);
  const {
    wouldDo: printed,
  }: { wouldDo?: { asked: Record<string, number>; deadLength_mm: number; changes: Change[] } } = JSON.parse(out);
  return printed ?? null;
}

const found = (changes: readonly Change[], name: string): number | null =>
  changes.find(({ change }) => change === name)?.to ?? null;

const ALL = { x_mm: 15, y_mm: 15, z_mm: 15, roll_deg: 8, pitch_deg: 8, yaw_deg: 8 };

/** So high that only the longest leg is asked too much. */
const HIGH = { position_mm: [0, 0, 235], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 };

it('says that no stroke with the dead length at hand does the worked case', async () => {
  const printed = await wouldDo(TABLE(), ALL);
  if (!printed) throw new Error('the case is not met');
  // an actuator of stroke S is D + S to D + 2 S long: some S does only while D <= 2 shortest - longest
  expect(printed.deadLength_mm).toBe(100);
  expect(printed.asked['mostDeadLength_mm']).toBeCloseTo(2 * 141.894164 - 214.70398, 4);
  expect(printed.asked['stroke_mm']).toBeCloseTo(72.8098, 3);
  expect(printed.asked['platformTilt_deg']).toBeCloseTo(29.1083, 3);
  for (const change of ['stroke', 'baseTilt', 'platformTilt']) expect(found(printed.changes, change)).toBeNull();
});

it('finds the least stroke, which does, while one a thousandth shorter does not', async () => {
  const box = { z_mm: 20 };
  const printed = await wouldDo(TABLE({ home: HIGH }), box);
  const stroke = printed && found(printed.changes, 'stroke');
  if (!stroke) throw new Error('a stroke does');
  expect(stroke).toBeGreaterThan(50);
  const code = async (S: number) =>
    (await judge(TABLE({ home: HIGH, legs: { ...legs, min_mm: 100 + S, max_mm: 100 + 2 * S } }), [{ box }])).code;
  expect(await code(stroke)).toBe(0);
  expect(await code(0.999 * stroke)).toBe(1);
});

it('finds the least joint tilt', async () => {
  const design = TABLE({ joints: { base: ball(25), platform: ball(6) } });
  const box = { roll_deg: 6 };
  const printed = await wouldDo(design, box);
  const tilt = printed && found(printed.changes, 'platformTilt');
  if (!tilt) throw new Error('a joint does');
  const code = async (tilt_deg: number) =>
    (await judge(TABLE({ joints: { base: ball(25), platform: ball(tilt_deg) } }), [{ box }])).code;
  expect(await code(tilt)).toBe(0);
  expect(await code(0.999 * tilt)).toBe(1);
});

it('finds the nearest radius of a plate, and leaves a locked one alone', async () => {
  const box = { z_mm: 20 };
  const home = HIGH;
  const printed = await wouldDo(TABLE({ home }), box);
  const radius = printed && found(printed.changes, 'baseRadius');
  if (!radius) throw new Error('a plate does');
  const at = async (R: number) =>
    (
      await judge(
        { ...TABLE({ home }), base: { ring: { radius_mm: R, gap_deg: 48, turn_deg: 0, jointHeight_mm: 0 } } },
        [{ box }],
      )
    ).code;
  // long enough while rho^2 = R^2 + 80^2 - 2 80 R cos 24 deg stays below 200^2 - 195^2: from the outside, R = 103.35
  const half = 80 * Math.cos((24 * Math.PI) / 180);
  expect(radius).toBeCloseTo(half + Math.sqrt(half ** 2 - 80 ** 2 + 200 ** 2 - 195 ** 2), 1);
  expect(await at(radius)).toBe(0);
  expect(await at(radius + Math.sign(120 - radius) * 0.1)).toBe(1);
  const locked = await wouldDo(TABLE({ home, parts: { locked: ['base.ring.radius_mm'] } }), box);
  expect(locked && found(locked.changes, 'baseRadius')).toBeNull();
});

it('says nothing where the task is met', async () => {
  expect(await wouldDo(TABLE(), { z_mm: 1 })).toBeNull();
});
