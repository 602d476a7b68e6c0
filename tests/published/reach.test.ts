import { describe, expect, it } from 'vitest';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { seededRandom } from '../../src/math/random.ts';
import { identity3 } from '../../src/math/rotation.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { DEG, mechanismOf, ring } from '../kinematics/designs.ts';
import { expectLegsToAgree } from '../reach/legs-agree.ts';
import { levelReach, tiltedReach } from '../reach/random-layouts.ts';

const level = identity3();

describe('one shell (derived: level, equal rings with the same pattern, so all six apexes coincide)', () => {
  const legs = { min: 130, max: 190, barrelDiameter: 22, rodDiameter: 10 };
  const shell = (base: number, tilt: number): Mechanism => {
    const joint = { tiltLimit: tilt, mount: { kind: 'square' } } as const;
    return mechanismOf(ring(90, base), ring(90, 120 - base), 160, { legs, joints: { base: joint, platform: joint } });
  };
  const shellVolume = (2 * Math.PI * (legs.max ** 3 - legs.min ** 3)) / 3;

  // Pair gaps 60/60 and 20/100: with a gap sum of 120 deg the platform joints stand over the base joints.
  it.each([60, 20])(
    'without joint limits it is two half shells, above and below the base, that meet in its plane (gap %d)',
    (gap) => {
      const { volume, home } = measureReach(shell(gap, Math.PI), level, { relativeError: 1e-3 });
      expect(Math.abs(volume / (2 * shellVolume) - 1)).toBeLessThan(2e-3);
      // A shell is one piece: the lower half can be reached through the plane, where the legs lie flat.
      expect(home.islands).toBe(0);
    },
  );

  it('joints that tilt no further than 90 deg leave the upper half, 2 pi/3 (max^3 - min^3)', () => {
    const { volume } = measureReach(shell(60, Math.PI / 2), level, { relativeError: 1e-3 });
    expect(Math.abs(volume / shellVolume - 1)).toBeLessThan(2e-3);
  });

  it.each([10, 25, 45, 70, 89, 91, 120, 160])('a cone of %d deg leaves 2 pi/3 (1 - cos t)(max^3 - min^3)', (tilt) => {
    const exact = (1 - Math.cos(tilt * DEG)) * shellVolume;
    const { volume, errorEstimate } = measureReach(shell(20, tilt * DEG), level, { relativeError: 1e-3 });
    expect(errorEstimate).toBeLessThan(1e-3);
    expect(Math.abs(volume / exact - 1)).toBeLessThan(2e-3);
  });
});

describe('fixed orientation (C. Gosselin, J. Mech. Des. 112, 1990: from memory; cones derived)', () => {
  // The limits that a pose breaks by the leg states are the spheres about A_i - R B_i and the cones there that it lies outside of.
  it('six shells about A_i - R B_i and the joint cones with the same apexes say what the legs say (seed 4)', () => {
    expectLegsToAgree(seededRandom(4), 60, [-50, 250], tiltedReach);
  });
});

describe('straight against leaning legs (common practice, no source)', () => {
  const legs = { min: 150, max: 225, barrelDiameter: 22, rodDiameter: 10 };
  const MID = 187.5;

  /** The same parts in another layout: legs at the middle of their stroke at home, mounts aimed along them. */
  function samePartsLayout(base: number, platform: number, tilt: number): Mechanism {
    const d = (60 - (base + platform) / 2) * DEG;
    const height = Math.sqrt(MID ** 2 - 2 * 100 ** 2 * (1 - Math.cos(d)));
    const joint = { tiltLimit: tilt * DEG, mount: { kind: 'aimed' } } as const;
    return mechanismOf(ring(100, base), ring(100, platform), height, {
      legs,
      joints: { base: joint, platform: joint },
    });
  }
  const volumeOf = (base: number, platform: number, tilt: number) =>
    measureReach(samePartsLayout(base, platform, tilt), level).home.volume;

  it('parallel legs reach about four times as far as legs that lean in pairs to a point', () => {
    // How many times depends on how far the joints tilt; rod ends without a shoulder tilt 30 to 40 deg (common practice, no source).
    expect(volumeOf(60, 60, 30) / volumeOf(0, 0, 30)).toBeGreaterThan(3);
    expect(volumeOf(60, 60, 35) / volumeOf(0, 0, 35)).toBeGreaterThan(3.5);
    expect(volumeOf(60, 60, 35) / volumeOf(0, 0, 35)).toBeLessThan(5);
  });

  it('equal rings with evenly spaced joints reach most of all, and are singular at every pose', () => {
    const most = volumeOf(60, 60, 35);
    for (let base = 0; base <= 100; base += 20) {
      for (let platform = 0; platform <= 100; platform += 20) {
        const volume = volumeOf(base, platform, 35);
        // Every layout with a gap sum of 120 deg has the same straight legs, so the same reach.
        if (base + platform === 120) expect(volume / most).toBeCloseTo(1, 6);
        else expect(volume).toBeLessThan(most);
      }
    }
    expect(assessArchitecture(samePartsLayout(60, 60, 35)).singularEverywhere).toBe(true);
  });
});

describe('a point-by-point count, written separately', () => {
  /** Cells along each side of the counted box. */
  const CELLS = 64;

  /** Whether every length and tilt of the layout is kept at a point, from its joints, mounts and limits. */
  function reaches(
    { centres, p_ToBi_P, baseAxes_B, platformAxes_P, legs, tiltLimit }: Mechanism,
    R: Float64Array,
    t: readonly number[],
  ) {
    const turned = (v: ArrayLike<number>, i: number) =>
      [0, 1, 2].map((k) => R[3 * k] * v[i] + R[3 * k + 1] * v[i + 1] + R[3 * k + 2] * v[i + 2]);
    for (let i = 0; i < 18; i += 3) {
      const arm = turned(p_ToBi_P, i);
      const leg = [0, 1, 2].map((k) => t[k] + arm[k] - centres.base[i + k]);
      const length = Math.hypot(...leg);
      if (length < legs.min || length > legs.max) return false;
      const axis = turned(platformAxes_P, i);
      const atBase = (leg[0] * baseAxes_B[i] + leg[1] * baseAxes_B[i + 1] + leg[2] * baseAxes_B[i + 2]) / length;
      const atPlatform = -(leg[0] * axis[0] + leg[1] * axis[1] + leg[2] * axis[2]) / length;
      if (Math.acos(Math.min(1, Math.max(-1, atBase))) > tiltLimit.base) return false;
      if (Math.acos(Math.min(1, Math.max(-1, atPlatform))) > tiltLimit.platform) return false;
    }
    return true;
  }

  // Counting is wrong only in the cells that the boundary cuts. Their number is N = area sum of |n_x| + |n_y| + |n_z| over cell
  // faces, at most sqrt(3) area / cell face; each is off by a uniform share, of variance 1/12 at most 1/4 (all or nothing), and
  // independent cells add to sqrt(N) / 2 cells as one standard deviation. Five of them are allowed.
  it('agrees with the measured volume of 24 tilted layouts with leaning mounts (seed 31)', { timeout: 120_000 }, () => {
    const random = seededRandom(31);
    let compared = 0;
    const ratios: number[] = [];
    for (let n = 0; compared < 24 && n < 100; n++) {
      const { mechanism, R_BP } = n % 6 === 5 ? levelReach(random) : tiltedReach(random);
      const { volume, bounds, boundary, errorEstimate } = measureReach(mechanism, R_BP, { relativeError: 1e-3 });
      if (!bounds || volume < 2000) continue;
      compared++;
      const low = bounds.low.map((x, k) => x - 0.02 * (bounds.high[k] - x));
      const step = bounds.high.map((x, k) => (1.04 * (x - bounds.low[k])) / CELLS);
      let count = 0;
      for (let k = 0; k < CELLS; k++) {
        for (let j = 0; j < CELLS; j++) {
          for (let i = 0; i < CELLS; i++) {
            const at = [low[0] + (i + 0.5) * step[0], low[1] + (j + 0.5) * step[1], low[2] + (k + 0.5) * step[2]];
            if (reaches(mechanism, R_BP, at)) count++;
          }
        }
      }
      const cell = step[0] * step[1] * step[2];
      const smallestFace = cell / Math.max(...step);
      const cutCells = (Math.sqrt(3) * boundary.area) / smallestFace;
      const counted = count * cell;
      const allowed = 5 * (Math.sqrt(cutCells) / 2) * cell + errorEstimate * volume;
      expect(Math.abs(volume - counted)).toBeLessThan(allowed);
      ratios.push(Math.abs(volume / counted - 1));
    }
    expect(compared).toBe(24);
    // So the check above has teeth: the count itself is good to a fraction of a percent.
    ratios.sort((a, b) => a - b);
    expect(ratios[12]).toBeLessThan(0.003);
  });
});
