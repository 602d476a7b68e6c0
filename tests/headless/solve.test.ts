import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { command, DEMO, VALID } from './command.ts';

const solveOutput = z.object({
  poses: z.array(
    z.object({
      position_mm: z.tuple([z.number(), z.number(), z.number()]),
      quaternion_wxyz: z.tuple([z.number(), z.number(), z.number(), z.number()]),
      roll_deg: z.number(),
      pitch_deg: z.number(),
      yaw_deg: z.number(),
      determinant: z.number(),
      residual_mm: z.number(),
    }),
  ),
});

const REFERENCE = VALID('rings-without-holes');
const six = (length: number): string => Array<number>(6).fill(length).join(',');

async function solve(file: string, ...options: readonly string[]) {
  const printed = await command(['solve', file, ...options]);
  return { ...printed, poses: solveOutput.parse(JSON.parse(printed.out)).poses };
}

/** Leg lengths of the reference layout at a pose, written anew: rotation from the quaternion, joints from their angles. */
function lengthsAt({ position_mm: p, quaternion_wxyz: [w, x, y, z] }: z.infer<typeof solveOutput>['poses'][number]) {
  const base = [-10, 10, 110, 130, 230, 250];
  const platform = [-50, 50, 70, 170, 190, 290];
  return base.map((angle, leg) => {
    const [ax, ay] = [100 * Math.cos((angle * Math.PI) / 180), 100 * Math.sin((angle * Math.PI) / 180)];
    const [bx, by] = [70 * Math.cos((platform[leg] * Math.PI) / 180), 70 * Math.sin((platform[leg] * Math.PI) / 180)];
    return Math.hypot(
      p[0] + (1 - 2 * (y * y + z * z)) * bx + 2 * (x * y - w * z) * by - ax,
      p[1] + 2 * (x * y + w * z) * bx + (1 - 2 * (x * x + z * z)) * by - ay,
      p[2] + 2 * (x * z - w * y) * bx + 2 * (y * z + w * x) * by,
    );
  });
}

describe('solve', () => {
  it('finds the level pose of six equal lengths', async () => {
    // closed form: h^2 = L^2 - (R^2 + r^2 - 2 R r cos 40 deg)
    const height = Math.sqrt(163.326 ** 2 - (100 ** 2 + 70 ** 2 - 14000 * Math.cos((40 * Math.PI) / 180)));
    const { code, err, poses } = await solve(REFERENCE, '--lengths', six(163.326));
    expect([code, err, poses.length]).toEqual([0, '', 1]);
    expect(poses[0].position_mm[2]).toBeCloseTo(height, 9);
    expect(Math.abs(poses[0].position_mm[2] - 150)).toBeLessThan(1e-4);
    expect(poses[0].residual_mm).toBeLessThan(1e-9);
  });

  it.each(['10,-15,155,5,-8,12', '-20,5,140,-3,4,-25'])('brings back the pose %s from its own lengths', async (at) => {
    const asked = at.split(',').map(Number);
    const { out } = await command(['pose', REFERENCE, '--at', at]);
    const legs = z.object({ legs: z.array(z.object({ length_mm: z.number() })) }).parse(JSON.parse(out)).legs;
    const { poses } = await solve(REFERENCE, '--lengths', legs.map(({ length_mm }) => length_mm).join(','));
    const [{ position_mm, roll_deg, pitch_deg, yaw_deg }] = poses;
    [...position_mm, roll_deg, pitch_deg, yaw_deg].forEach((value, index) => {
      expect(value).toBeCloseTo(asked[index], 8);
    });
  });

  it('lists every pose with --all: each has the lengths, and they come in mirror pairs through the base plane', async () => {
    const lengths = [160, 165, 158, 170, 163, 161];
    const { code, poses } = await solve(REFERENCE, '--lengths', lengths.join(','), '--all');
    expect(code).toBe(0);
    expect(poses.length).toBeGreaterThan(1);
    for (const pose of poses) {
      expect(pose.residual_mm).toBeLessThan(1e-8);
      lengthsAt(pose).forEach((length, leg) => {
        expect(length).toBeCloseTo(lengths[leg], 7);
      });
      // both plates are flat: z of the tool point changes sign in the mirror pose, x and y stay (elementary)
      const [x, y, z] = pose.position_mm;
      const mirrored = poses.filter(({ position_mm: [a, b, c] }) => Math.hypot(a - x, b - y, c + z) < 1e-6);
      expect(mirrored).toHaveLength(1);
      expect(mirrored[0].determinant).toBeCloseTo(-pose.determinant, 3);
    }
  });

  it('takes a guess below the base and stays there', async () => {
    const { poses } = await solve(REFERENCE, '--lengths', six(163.326), '--near', '0,0,-150,0,0,0');
    expect(poses[0].position_mm[2]).toBeCloseTo(-150, 3);
  });

  it('says which legs are asked beyond their stroke', async () => {
    const { code, lines } = await solve(REFERENCE, '--lengths', six(210));
    expect(code).toBe(1);
    expect(lines).toHaveLength(6);
    expect(lines[1]).toBe('Leg 2 is asked to be 210 mm; legs are 120 to 200 mm long.');
  });

  it.each([[], ['--all']])('reports a layout whose lengths fix no pose (%j)', async (...flags) => {
    const { code, lines } = await solve(DEMO('even'), '--lengths', six(160), ...flags.flat());
    expect(code).toBe(1);
    expect(lines).toEqual(['The legs are dependent at every pose, so six lengths do not fix a pose.']);
  });
});

describe('lengths that no pose has', () => {
  it.each([
    // the legs of a base pair end 107 mm apart on the platform and 35 mm apart on the base: 10 + 35 + 10 < 107 (elementary)
    [six(10), /legs 1 and 2 cannot both be as long as asked/],
    ['300,200,300,200,300,200', /No other pose has these lengths either\.$|No pose has them/],
  ])('%s are refused on one line', async (lengths, message) => {
    for (const flags of [[], ['--all']]) {
      const { code, out, lines } = await command(['solve', REFERENCE, '--lengths', lengths, ...flags]);
      expect([code, out, lines.length]).toEqual([2, '', 1]);
      expect(lines[0]).toContain(`--lengths is ${lengths}; it must be six lengths that a pose has. `);
      if (flags.length === 0) expect(lines[0]).toMatch(message);
    }
  });
});
