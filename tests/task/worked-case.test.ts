import { expect, it } from 'vitest';
import { asked, judge, line, rings } from './task-command.ts';

/** Six actuators of 150 to 200 mm, 25 deg joints aimed at home, rings of 120 and 80 mm, the tool 60 mm over the ring. */
const TABLE = (more: object = {}) =>
  rings([120, 80], [48, 24], 225, {
    legs: { min_mm: 150, max_mm: 200, barrelDiameter_mm: 22, rodDiameter_mm: 10 },
    joints: {
      base: { kind: 'ball', tilt_deg: 25, mount: 'aimed' },
      platform: { kind: 'ball', tilt_deg: 25, mount: 'aimed' },
    },
    tool: { point_mm: [0, 0, 60] },
    ...more,
  });

const ALL = { x_mm: 15, y_mm: 15, z_mm: 15, roll_deg: 8, pitch_deg: 8, yaw_deg: 8 };
const ROCK = { name: 'Rock', box: ALL, toolError_mm: 0.3, payload: { mass_kg: 2, centre_mm: [0, 0, 60] } };

it('asks 72.8 of 50 mm and 29.11 of 25 deg of the worked case, with its margins and scale', async () => {
  // figures of an independent program, checked by brute force
  const { code, task, err } = await judge(TABLE(), [ROCK]);
  const [rock] = task.requirements;
  expect(code).toBe(1);
  expect(task.meets).toBe(false);
  expect(asked(rock, 'shortestLeg')).toBeCloseTo(141.89, 2);
  expect(asked(rock, 'longestLeg')).toBeCloseTo(214.7, 2);
  expect(asked(rock, 'platformTilt')).toBeCloseTo(29.11, 2);
  expect(line(rock, 'shortestLeg').margin).toBeCloseTo(-0.162117, 6);
  expect(line(rock, 'longestLeg').margin).toBeCloseTo(-0.29408, 6);
  expect(line(rock, 'stroke').margin).toBeCloseTo(-0.456196, 6);
  expect(line(rock, 'stroke').meets).toBeNull();
  expect(line(rock, 'platformTilt').margin).toBeCloseTo(-0.16433, 6);
  expect(rock.margin).toBe(line(rock, 'longestLeg').margin);
  expect(task.tau).toBeCloseTo(0.647, 3);
  expect(line(rock, 'longestLeg')).toMatchObject({ unit: 'mm', limit: 200, certainty: 'proven', meets: false });
  expect(err).toContain('Rock: the longest leg is 214.704 of 200 mm');
});

it('is met by the share of the motion that is said to pass, and not by a little more', async () => {
  const scaled = (share: number) => ({
    ...ROCK,
    box: Object.fromEntries(Object.entries(ALL).map(([axis, half]) => [axis, share * half])),
  });
  expect((await judge(TABLE(), [scaled(0.6469)])).code).toBe(0);
  expect((await judge(TABLE(), [scaled(0.6473)])).code).toBe(1);
});

it('never lowers a margin for a smaller motion, nor raises the task’s for one more requirement', async () => {
  const { task } = await judge(TABLE(), [
    ROCK,
    { ...ROCK, box: { ...ALL, each: 'alone' } },
    { ...ROCK, box: { ...ALL, yaw_deg: 0 } },
    { ...ROCK, box: { ...ALL, x_mm: 5 } },
    { ...ROCK, box: undefined, round: { radius_mm: 15, tilt_deg: 8, yaw_deg: 8 } },
  ]);
  const [whole, ...smaller] = task.requirements.map(({ margin }) => margin ?? Number.NaN);
  for (const margin of smaller) expect(margin).toBeGreaterThanOrEqual(whole - 1e-9);
  expect(task.margin).toBe(whole);
});

it('takes the best of a free axis: its margin is never below that of the middle', async () => {
  const { yaw_deg: _, ...still } = ALL;
  const small = Object.fromEntries(Object.entries(still).map(([axis, half]) => [axis, half * 0.6]));
  const { task } = await judge(TABLE(), [
    { ...ROCK, box: small },
    { ...ROCK, box: { ...small, free: { yaw_deg: 20 } } },
    { ...ROCK, box: { ...small, yaw_deg: 20 } },
    { ...ROCK, box: { ...small, free: { yaw_deg: 0 } } },
  ]);
  const [fixed, free, asked20, none] = task.requirements.map(({ margin }) => margin ?? Number.NaN);
  expect(free).toBeGreaterThanOrEqual(fixed - 1e-9);
  expect(fixed).toBeGreaterThan(asked20);
  // a free range of nothing leaves the middle
  expect(none).toBeCloseTo(fixed, 6);
  expect(task.requirements[1].lines.every(({ certainty }) => certainty === 'searched')).toBe(true);
});

it('counts reserves, limits of the design and of the command line, and its own above them', async () => {
  const small = { name: 'Small', box: { z_mm: 5 } };
  const of = async (design: object, requirement: object, ...options: string[]) =>
    (await judge(design, [requirement], ...options)).task.requirements[0];
  expect(line(await of(TABLE(), small), 'firmness').limit).toBeNull();
  const kept = { floors: { firmness: 0.2, longMargin_mm: 2, platformMargin_deg: 3 } };
  const own = await of(TABLE(kept), { ...small, firmness: 0.3 });
  expect(line(own, 'firmness').limit).toBe(0.3);
  expect(line(own, 'longestLeg').limit).toBe(198);
  expect(line(own, 'platformTilt').limit).toBeCloseTo(22, 9);
  expect(line(own, 'stroke').limit).toBe(48);
  expect(line(await of(TABLE(kept), small, '--keep', 'firmness=0.9'), 'firmness').limit).toBe(0.9);
  expect(line(await of(TABLE(kept), small, '--floor', 'firmness=0.8'), 'firmness').limit).toBe(0.8);
});

it('says what cannot be judged and counts it as not met', async () => {
  const still = { box: { z_mm: 1 } };
  const stiff = await judge(TABLE(), [{ ...still, stiffness_N_mm: 10 }]);
  expect(line(stiff.task.requirements[0], 'stiffness')).toMatchObject({ asked: null, margin: null, meets: false });
  expect(line(stiff.task.requirements[0], 'stiffness').note).toContain('how stiff its legs are');
  const legs = { min_mm: 150, max_mm: 200, barrelDiameter_mm: 22, rodDiameter_mm: 10, screwLead_mm: 8 };
  const spins = await judge(TABLE({ legs: { ...legs, rodKeyed: false } }), [still]);
  expect(line(spins.task.requirements[0], 'freeSpin')).toMatchObject({ asked: null, meets: false });
  expect(spins.code).toBe(1);
  expect((await judge(TABLE({ legs: { ...legs, rodKeyed: true } }), [still])).code).toBe(0);
});

it('lets a wish fail without failing the task', async () => {
  const { code, task } = await judge(TABLE(), [{ box: { z_mm: 1 } }, { ...ROCK, must: false }]);
  expect(code).toBe(0);
  expect(task.requirements.map(({ meets }) => meets)).toEqual([true, false]);
});
