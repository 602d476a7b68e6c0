import { describe, expect, it } from 'vitest';
import { asked, judge, judgeOne, line, REFERENCE, rings } from './task-command.ts';

/**
 * Closed forms for symmetric rings. R and r are the joint circles' radii, d the angle in plan between the two ends of a leg, h the height:
 * d = 60 deg - (sum of the gaps)/2, rho^2 = R^2 + r^2 - 2 R r cos d, L^2 = rho^2 + h^2. All derived from elementary geometry.
 */
const DEG = Math.PI / 180;
const [R, r, d, h] = [100, 70, 40 * DEG, 150];
const rho = Math.sqrt(R * R + r * r - 2 * R * r * Math.cos(d));
const L = Math.hypot(rho, h);
const STEEL = { stiffness: { leg_N_mm: 500 } };
const BARE = { payload: { mass_kg: 0 } };
const legs = (min_mm: number, max_mm: number) => ({
  legs: { min_mm, max_mm, barrelDiameter_mm: 10, rodDiameter_mm: 5 },
});

describe('heave', () => {
  it('asks the lengths of a straight rise', async () => {
    const rise = await judgeOne(REFERENCE(), { box: { z_mm: 20 } });
    expect(asked(rise, 'shortestLeg')).toBeCloseTo(Math.hypot(rho, h - 20), 6);
    expect(asked(rise, 'longestLeg')).toBeCloseTo(Math.hypot(rho, h + 20), 6);
    expect(asked(rise, 'shortestLeg')).toBeCloseTo(145.173613, 6);
    expect(asked(rise, 'longestLeg')).toBeCloseTo(181.866373, 6);
  });

  it('uses the whole stroke exactly at the home that shares it out, and fails a hair beside it', async () => {
    // range of L^2 = 4 h0 c: 150 to 200 mm and c = 50 mm give h0 = 87.5 and rho = 145.236877
    const [least, most, c] = [150, 200, 50];
    const height = (most ** 2 - least ** 2) / (4 * c);
    const radius = Math.sqrt(most ** 2 - (height + c) ** 2);
    expect(height).toBe(87.5);
    expect(radius).toBeCloseTo(Math.sqrt(21093.75), 9);
    // rings of equal radius with gaps of 60 and 20 deg stand 20 deg apart in plan
    const half = radius / (2 * Math.sin(10 * DEG));
    const design = rings([half, half], [60, 20], height, legs(least, most));
    const exactly = await judgeOne(design, { box: { z_mm: c } });
    expect(exactly.meets).toBe(true);
    expect(exactly.margin).toBe(0);
    expect(exactly.tau).toBeCloseTo(1, 3);
    expect((await judgeOne(design, { box: { z_mm: c + 1e-3 } })).meets).toBe(false);
  });

  it('tilts leaning mounts by half the difference of the two leans', async () => {
    // 120 to 200 mm: best lean (asin(rho/120) + asin(rho/200))/2 = 25.714812 deg, tilt half their difference, 6.865167 deg
    const [steep, flat] = [Math.asin(rho / 120), Math.asin(rho / 200)];
    const lean = (steep + flat) / 2 / DEG;
    expect(lean).toBeCloseTo(25.714812, 6);
    const low = Math.sqrt(120 ** 2 - rho ** 2);
    const high = Math.sqrt(200 ** 2 - rho ** 2);
    const angles = [-10, 10, 110, 130, 230, 250];
    const ends = [-50, 50, 70, 170, 190, 290];
    const toward_deg = angles.map((angle, n) => {
      const [x, y] = [R * Math.cos(angle * DEG), R * Math.sin(angle * DEG)];
      const [u, v] = [r * Math.cos(ends[n] * DEG), r * Math.sin(ends[n] * DEG)];
      return Math.atan2(v - y, u - x) / DEG;
    });
    const joints = {
      base: { kind: 'ball', tilt_deg: 20, mount: { lean_deg: lean, toward_deg } },
      platform: { kind: 'ball', tilt_deg: 90, mount: 'square' },
    };
    const design = rings([R, r], [20, 20], (low + high) / 2, { joints });
    const rise = await judgeOne(design, { box: { z_mm: (high - low) / 2 } });
    expect((high - low) / 2).toBeCloseTo(44.07853, 5);
    expect(asked(rise, 'baseTilt')).toBeCloseTo((steep - flat) / 2 / DEG, 5);
    expect(asked(rise, 'baseTilt')).toBeCloseTo(6.865167, 5);
    // aimed along the legs of a home at 150 mm they would tilt 9.274515 deg
    const about = { position_mm: [0, 0, (low + high) / 2], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 };
    const aimed = await judgeOne(REFERENCE(), { box: { z_mm: (high - low) / 2, about } });
    expect((low + high) / 2).toBeCloseTo(145.195404, 6);
    expect(asked(aimed, 'baseTilt')).toBeCloseTo((steep - Math.atan2(rho, h)) / DEG, 6);
    expect(asked(aimed, 'baseTilt')).toBeCloseTo(9.274515, 5);
  });

  it('needs a height for the legs to hold a weight: W L/6h', async () => {
    // 150..200 mm, 20 N, 10 N a leg: from h 50 to 141.421356, rho 141.421356
    const [W, F, least] = [20, 10, 150];
    const low = (W * least) / (6 * F);
    const apart = Math.sqrt(least ** 2 - low ** 2);
    const high = Math.sqrt(200 ** 2 - apart ** 2);
    expect([low, high - low, apart].map((value) => value.toFixed(6))).toEqual(['50.000000', '91.421356', '141.421356']);
    const half = apart / (2 * Math.sin(10 * DEG));
    const design = rings([half, half], [60, 20], (low + high) / 2, legs(150, 200));
    const weight = { payload: { mass_kg: W / 9.80665, centre_mm: [0, 0, 0] } };
    const lift = await judgeOne(design, { box: { z_mm: (high - low) / 2 }, ...weight, legForce_N: F });
    expect(asked(lift, 'pushForce')).toBeCloseTo(F, 6);
    expect(line(lift, 'pushForce').meets).toBe(true);
    expect(asked(lift, 'pullForce')).toBe(0);
  });
});

describe('yaw', () => {
  it.each([
    [175, 145.712418, 26.835964],
    [200, 146.969385, 64.477512],
  ])('uses legs of 150 to %d mm exactly', async (most, height, psi) => {
    // up to psi = d: 4 R r sin d sin psi = Lmax^2 - Lmin^2; past it: 2 R r (1 - cos(d + psi))
    const turn = psi * DEG;
    const asks = turn <= d ? 4 * R * r * Math.sin(d) * Math.sin(turn) : 2 * R * r * (1 - Math.cos(d + turn));
    expect(asks).toBeCloseTo(most ** 2 - 150 ** 2, 1);
    expect(Math.sqrt(most ** 2 - R * R - r * r + 2 * R * r * Math.cos(d + turn))).toBeCloseTo(height, 5);
    const swing = await judgeOne(rings([R, r], [20, 20], height, legs(150, most)), { box: { yaw_deg: psi } });
    expect(asked(swing, 'shortestLeg')).toBeCloseTo(150, 4);
    expect(asked(swing, 'longestLeg')).toBeCloseTo(most, 4);
  });

  it('finds the shortest leg between the ends: 150.000, where the ends say 154.137', async () => {
    const swing = await judgeOne(rings([R, r], [20, 20], 146.9694), { box: { yaw_deg: 64.4775 } });
    const ends = Math.sqrt(146.9694 ** 2 + R * R + r * r - 2 * R * r * Math.cos(d - 64.4775 * DEG));
    expect(ends).toBeCloseTo(154.137, 3);
    expect(asked(swing, 'shortestLeg')).toBeCloseTo(Math.sqrt(146.9694 ** 2 + (R - r) ** 2), 6);
    expect(asked(swing, 'shortestLeg')).toBeCloseTo(150, 4);
    expect(line(swing, 'shortestLeg').certainty).toBe('proven');
  });

  it('tilts aimed joints as the cosine rule says', async () => {
    // cos(base) = (h^2 + R^2 + r^2 cos psi - R r (cos d + cos(d + psi)))/(L0 L_psi); platform: R and r exchanged
    const turned = (psi: number, one: number, other: number) => {
      const length = Math.sqrt(h * h + R * R + r * r - 2 * R * r * Math.cos(d + psi));
      const dot = h * h + one ** 2 + other ** 2 * Math.cos(psi) - R * r * (Math.cos(d) + Math.cos(d + psi));
      return Math.acos(dot / (L * length)) / DEG;
    };
    const swing = await judgeOne(REFERENCE(), { box: { yaw_deg: 40 } });
    const worst = (one: number, other: number) => Math.max(turned(40 * DEG, one, other), turned(-40 * DEG, one, other));
    expect(asked(swing, 'baseTilt')).toBeCloseTo(worst(R, r), 6);
    expect(asked(swing, 'platformTilt')).toBeCloseTo(worst(r, R), 6);
    expect(worst(R, r)).toBeCloseTo(17.008469, 6);
    expect(worst(r, R)).toBeCloseTo(24.70055, 5);
  });

  it('refutes a range across a singular pose although both its ends are finite', async () => {
    // level and turned by 90 deg the symmetric rings are singular (E. F. Fichter, Int. J. Robotics Res. 5(2), 1986: from memory)
    const about = { position_mm: [0, 0, h], roll_deg: 0, pitch_deg: 0, yaw_deg: 90 };
    const across = await judgeOne(REFERENCE(legs(10, 400)), { box: { yaw_deg: 10, about } });
    const firmness = line(across, 'firmness');
    expect(across.meets).toBe(false);
    expect(firmness.asked).toBe(0);
    expect(firmness.pose?.yaw_deg).toBeCloseTo(90, 6);
    for (const yaw_deg of [80, 100]) {
      const end = await judgeOne(REFERENCE(legs(10, 400)), { poses: [{ ...about, yaw_deg }] });
      expect(asked(end, 'firmness')).toBeGreaterThan(0.05);
      expect(end.meets).toBe(true);
    }
  });
});

describe('positions', () => {
  it('finds the shortest leg inside a box: 130.0000, where the corners say 130.5708', async () => {
    const design = rings([80, 70], [50, 50], 150);
    const box = await judgeOne(design, { box: { x_mm: 20, y_mm: 20, z_mm: 20 } });
    expect(asked(box, 'shortestLeg')).toBeCloseTo(130, 6);
    expect(line(box, 'shortestLeg').certainty).toBe('proven');
  });

  it('asks of a level ball and of its ellipsoid what plane geometry says', async () => {
    // farthest and nearest points of a ball of radius 20 lie on the leg's own line
    const ball = await judgeOne(REFERENCE(), { round: { radius_mm: 20 } });
    expect(asked(ball, 'shortestLeg')).toBeCloseTo(L - 20, 5);
    expect(asked(ball, 'longestLeg')).toBeCloseTo(L + 20, 5);
    // an upright disc: only the radius counts, sqrt((rho +- a)^2 + h^2)
    const disc = await judgeOne(REFERENCE(), { round: { x_mm: 20, y_mm: 20 } });
    expect(asked(disc, 'shortestLeg')).toBeCloseTo(Math.hypot(rho - 20, h), 6);
    expect(asked(disc, 'longestLeg')).toBeCloseTo(Math.hypot(rho + 20, h), 6);
  });

  it('reaches the ends of a level cylinder: 137.443411 to 189.894877', async () => {
    // sqrt((rho -+ 20)^2 + (h -+ 20)^2): as a list of poses all round both rims
    const rim = Array.from({ length: 180 }, (_, n) => {
      const angle = 2 * (n % 90) * 2 * DEG;
      const position_mm = [20 * Math.cos(angle), 20 * Math.sin(angle), n < 90 ? h - 20 : h + 20];
      return { position_mm, roll_deg: 0, pitch_deg: 0, yaw_deg: 0 };
    });
    const cylinder = await judgeOne(REFERENCE(), { poses: rim });
    expect(Math.hypot(rho - 20, h - 20)).toBeCloseTo(137.443411, 6);
    expect(Math.hypot(rho + 20, h + 20)).toBeCloseTo(189.894877, 6);
    // poses 4 deg apart miss the worst place by at most 2 deg of the rim
    expect(asked(cylinder, 'shortestLeg')).toBeCloseTo(137.443411, 1);
    expect(asked(cylinder, 'longestLeg')).toBeCloseTo(189.894877, 1);
    expect(asked(cylinder, 'shortestLeg')).toBeGreaterThanOrEqual(137.443411 - 1e-6);
  });
});

describe('tilt', () => {
  /** Extremes over the azimuth of the tilt's axis of the closed form of a cone's rim, a hundred thousand steps round. */
  const rim = (tilt: number) => {
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    let [least, most] = [Infinity, 0];
    for (const [al, be] of [
      [-10, -50],
      [10, 50],
      [110, 70],
      [130, 170],
      [230, 190],
      [250, 290],
    ]) {
      const [a, b] = [al * DEG, be * DEG];
      for (let n = 0; n < 100_000; n++) {
        const az = (2 * Math.PI * n) / 100_000;
        const square =
          h * h +
          R * R +
          r * r -
          R * r * (1 + c) * Math.cos(a - b) -
          R * r * (1 - c) * Math.cos(2 * az - a - b) +
          2 * h * r * s * Math.sin(b - az);
        least = Math.min(least, square);
        most = Math.max(most, square);
      }
    }
    return [Math.sqrt(least), Math.sqrt(most)] as const;
  };

  it('to any side asks less than roll and pitch together: 17.894 mm of stroke against 25.005', async () => {
    const [least, most] = rim(8 * DEG);
    const cone = await judgeOne(REFERENCE(), { round: { tilt_deg: 8 } });
    expect(asked(cone, 'shortestLeg')).toBeCloseTo(least, 6);
    expect(asked(cone, 'longestLeg')).toBeCloseTo(most, 6);
    expect(asked(cone, 'stroke')).toBeCloseTo(17.894, 3);
    const box = await judgeOne(REFERENCE(), { box: { roll_deg: 8, pitch_deg: 8 } });
    expect(asked(box, 'shortestLeg')).toBeCloseTo(151.28981, 5);
    expect(asked(box, 'longestLeg')).toBeCloseTo(176.295303, 5);
    expect(asked(box, 'stroke')).toBeCloseTo(25.005, 3);
  });
});

describe('forces', () => {
  it('of a push in any direction are the lengths of the legs’ columns', async () => {
    // unit loads: vertical L/6h, horizontal L/(3 R sin d); tilting L rho/(3 h R r sin d), yaw L/(6 R r sin d)
    const vertical = L / (6 * h);
    const level = L / (3 * R * Math.sin(d));
    const tilting = (L * rho) / (3 * h * R * r * Math.sin(d));
    const yaw = L / (6 * R * r * Math.sin(d));
    expect([vertical, level].map((value) => value.toFixed(9))).toEqual(['0.181473318', '0.846967095']);
    expect([tilting, yaw].map((value) => value.toFixed(9))).toEqual(['0.005212249', '0.006049765']);
    const still = { poses: [{ position_mm: [0, 0, h], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 }], ...BARE };
    const pushed = await judgeOne(REFERENCE(), { ...still, sidePush: { size_N: 1 } });
    expect(asked(pushed, 'pushForce')).toBeCloseTo(Math.hypot(vertical, level), 9);
    expect(asked(pushed, 'pullForce')).toBeCloseTo(Math.hypot(vertical, level), 9);
    const twisted = await judgeOne(REFERENCE(), { ...still, sidePush: { size_N_mm: 1 } });
    expect(asked(twisted, 'pushForce')).toBeCloseTo(Math.hypot(tilting, yaw), 9);
    const lifted = await judgeOne(REFERENCE(), { ...still, load: { force_N: [0, 0, 1] } });
    expect(asked(lifted, 'pullForce')).toBeCloseTo(vertical, 9);
    const turned = await judgeOne(REFERENCE(), { ...still, load: { torque_N_mm: [0, 0, 1] } });
    expect(asked(turned, 'pushForce')).toBeCloseTo(yaw, 9);
  });

  it('keep every leg pushing while the weight is enough', async () => {
    // W >= 4.667171 F for a level force in the worst direction; that direction is along a leg's own column
    const push = 2;
    const needed = push * ((2 * h) / (R * Math.sin(d)));
    expect(needed / push).toBeCloseTo(4.667171, 6);
    const still = [{ position_mm: [0, 0, h], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 }];
    const least = async (weight: number) => {
      const all = Array.from({ length: 72 }, (_, n) => ({
        poses: still,
        leastPush_N: 0,
        payload: { mass_kg: weight / 9.80665, centre_mm: [0, 0, 0] },
        load: { force_N: [push * Math.cos(n * 5 * DEG), push * Math.sin(n * 5 * DEG), 0] },
      }));
      // a task holds twenty requirements
      const parts = [0, 20, 40, 60].map((from) => judge(REFERENCE(), all.slice(from, from + 20)));
      const reports = (await Promise.all(parts)).flatMap(({ task }) => task.requirements);
      return Math.min(...reports.map((report) => asked(report, 'leastPush')));
    };
    // 5 deg steps meet the worst direction within 2.5 deg: a thousandth of the force
    expect(await least(needed * 1.001)).toBeGreaterThan(0);
    expect(await least(needed * 0.99)).toBeLessThan(0);
  });
});

describe('error and stiffness', () => {
  const still = { poses: [{ position_mm: [0, 0, h], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 }] };

  it('takes the largest error over all signs, 0.166820, not the axes’ worsts together, 0.236919', async () => {
    const report = await judgeOne(REFERENCE({ accuracy: { zero_mm: 0.05 } }), still);
    expect(asked(report, 'toolError')).toBeCloseTo(0.16682, 6);
  });

  it('finds the weakest direction of six equal springs', async () => {
    // K about the centre: sum u_x^2 = 3 rho^2/L^2 and sum u_z^2 = 6 h^2/L^2, and x couples with pitch by 3 r h (R cos d - r)/L^2;
    // with the rotations free the coupling counts: 1/k = (K^-1)_xx
    const k = 500;
    const xx = (3 * k * rho ** 2) / L ** 2;
    const rr = (3 * k * r * r * h * h) / L ** 2;
    const xr = (3 * k * r * h * (R * Math.cos(d) - r)) / L ** 2;
    const side = xx - xr ** 2 / rr;
    const report = await judgeOne(REFERENCE(STEEL), still);
    expect(asked(report, 'stiffness')).toBeCloseTo(Math.min(side, (6 * k * h * h) / L ** 2), 6);
  });
});
