import { describe, expect, it } from 'vitest';
import { legStates } from '../../src/kinematics/legs.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { multiply3, rotationAbout } from '../../src/math/rotation.ts';
import { CommonReach } from '../../src/reach/columns/common-column.ts';
import { Constraints } from '../../src/reach/columns/constraints.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { reachOverTilt, sampleOrientations } from '../../src/reach/columns/over-tilt.ts';
import { reachCloud } from '../../src/reach/shell/cloud.ts';
import { DEG, mechanismOf, ring } from '../kinematics/designs.ts';

const SEED = 9;
const joint = { tiltLimit: 35 * DEG, mount: { kind: 'aimed' } } as const;
const mechanism = mechanismOf(ring(100, 20), ring(70, 20), 150, {
  legs: { min: 130, max: 190, barrelDiameter: 22, rodDiameter: 10 },
  joints: { base: joint, platform: joint },
});
const middle = mechanism.home.R_BP;

describe('the reach over a range of orientations', () => {
  const range = { tilt: 8 * DEG, yaw: 10 * DEG };
  const tilted = reachOverTilt(mechanism, range);

  it('is the middle one for a range of nothing, and shrinks as the range grows', () => {
    const level = measureReach(mechanism, middle);
    const none = reachOverTilt(mechanism, { tilt: 0, yaw: 0 });
    expect(none.sampledOrientations).toBe(1);
    expect(none.volume / level.volume).toBeCloseTo(1, 2);
    let last = level.home.volume;
    for (const tilt of [3, 6, 9]) {
      const { home } = reachOverTilt(mechanism, { tilt: tilt * DEG, yaw: 0 });
      expect(home.volume).toBeLessThan(0.97 * last);
      last = home.volume;
    }
  });

  it(`holds where every orientation tried does, and nowhere else (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    const sample = sampleOrientations(middle, range, 6);
    const common = new CommonReach(
      sample.map((R) => {
        const set = new Constraints();
        set.setMechanism(mechanism, R);
        return set;
      }),
    );
    let inside = 0;
    for (let n = 0; n < 300; n++) {
      const position = [uniform(random, -40, 40), uniform(random, -40, 40), uniform(random, 120, 180)] as const;
      const holds = sample.every((R_BP) =>
        legStates(mechanism, { p_BoTo_B: position, R_BP }).every(({ violations }) => violations.length === 0),
      );
      const count = common.cut(2, position[0], position[1]);
      const within = Array.from({ length: count }).some(
        (_, i) => common.starts[i] <= position[2] && position[2] <= common.stops[i],
      );
      expect(within).toBe(holds);
      if (holds) inside++;
    }
    expect(inside).toBeGreaterThan(20);
  });

  it(`leaves little that other orientations of the range would take away (seed ${SEED})`, () => {
    expect(tilted.samplingSettled).toBe(true);
    expect(tilted.sampledOrientations).toBeGreaterThan(30);
    const random = seededRandom(SEED);
    const { positions, count } = reachCloud(mechanism, middle, { points: 1500 });
    const sample = sampleOrientations(middle, range, 24);
    const sets = sample.map((R) => {
      const set = new Constraints();
      set.setMechanism(mechanism, R);
      return set;
    });
    const common = new CommonReach(sets);
    let sampled = 0;
    let kept = 0;
    for (let n = 0; n < count; n++) {
      const [x, y, z] = positions.subarray(3 * n, 3 * n + 3);
      const stretches = common.cut(2, x, y);
      if (!Array.from({ length: stretches }).some((_, i) => common.starts[i] <= z && z <= common.stops[i])) continue;
      sampled++;
      const everywhere = Array.from({ length: 60 }).every(() => {
        const toward = uniform(random, 0, 2 * Math.PI);
        const lean = rotationAbout([Math.cos(toward), Math.sin(toward), 0], range.tilt * Math.sqrt(random()));
        const R_BP = multiply3(middle, multiply3(lean, rotationAbout([0, 0, 1], uniform(random, -1, 1) * range.yaw)));
        return legStates(mechanism, { p_BoTo_B: [x, y, z], R_BP }).every(({ violations }) => violations.length === 0);
      });
      if (everywhere) kept++;
    }
    expect(sampled).toBeGreaterThan(100);
    expect(kept / sampled).toBeGreaterThan(0.98);
  });

  it('stops when asked', () => {
    const stopped = reachOverTilt(mechanism, range, { report: () => undefined, shouldStop: () => true });
    expect(stopped.sampledOrientations).toBeLessThan(tilted.sampledOrientations);
    expect(stopped.samplingSettled).toBe(false);
  });
});
