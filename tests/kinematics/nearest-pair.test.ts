import { describe, expect, it } from 'vitest';
import { assessClearance, poseBodies } from '../../src/kinematics/clearance.ts';
import { clearanceModel } from '../../src/kinematics/clearance-pairs.ts';
import { type ClearanceSpec, defaultClearance } from '../../src/kinematics/keep-out.ts';
import { nearestPair } from '../../src/kinematics/nearest-pair.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { SmallestClearance } from '../../src/kinematics/smallest-clearance.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { referenceLayout } from './designs.ts';

const SEED = 4711;
const mechanism = referenceLayout({ legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 } });
const assumed = defaultClearance(mechanism);
const SPECS: Readonly<Record<string, ClearanceSpec>> = {
  'closed plates': assumed,
  'open plates, a payload and a keep-out': {
    ...assumed,
    plates: {
      base: { outline: { kind: 'disc', radius: 130 }, thickness: 8, opening: 40 },
      platform: { outline: { kind: 'disc', radius: 95 }, thickness: 6, opening: 25 },
    },
    payload: { kind: 'box', centre: [0, 0, 30], size: [80, 60, 40], turn: 0.3 },
    keepOuts: [
      { name: 'post', fixedTo: 'base', solid: { kind: 'cylinder', from: [0, 0, 0], to: [0, 0, 110], radius: 20 } },
    ],
  },
};

describe.each(Object.entries(SPECS))('the nearest pair among %s', (_, spec) => {
  it('is the first of all pairs at any pose, apart or not', () => {
    const random = seededRandom(SEED);
    const model = clearanceModel(mechanism, spec);
    const gauge = new SmallestClearance(model);
    let met = 0;
    for (let n = 0; n < 60; n++) {
      const turn = () => uniform(random, -0.6, 0.6);
      const position = [uniform(random, -60, 60), uniform(random, -60, 60), uniform(random, 90, 190)] as const;
      const pose = poseFromAngles({ position, roll: turn(), pitch: turn(), yaw: turn() });
      poseBodies(model, pose);
      const found = nearestPair(model, gauge.now());
      const all = assessClearance(mechanism, pose, spec);
      if (!all.ok || !all.value.smallest || !found) throw new Error(`no pair at pose ${n} of seed ${SEED}`);
      const { smallest } = all.value;
      if (smallest.distance <= 0) {
        met++;
        expect(found.distance, `pose ${n} of seed ${SEED}`).toBeLessThanOrEqual(0);
        continue;
      }
      expect(found.distance, `pose ${n} of seed ${SEED}`).toBeCloseTo(smallest.distance, 8);
      expect(`${found.a} ${found.b}`).toBe(`${smallest.a} ${smallest.b}`);
    }
    expect(met).toBeGreaterThan(0);
    expect(met).toBeLessThan(60);
  });
});
