import { describe, expect, it } from 'vitest';
import { compiledDesign } from '../../src/document/compiled.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { LEG_COUNT } from '../../src/kinematics/layout.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import { REFERENCE_PLAY } from '../../src/kinematics/loosest-motion.ts';
import { platformOrigin, poseFromAngles } from '../../src/kinematics/pose.ts';
import { rotate } from '../../src/math/rotation.ts';
import { add, at, length, subtract } from '../../src/math/vec3.ts';
import { loosePose, rockShare, shownAmplitude, shownTimes } from '../../src/scene/shape/loose-pose.ts';
import { judgePose } from '../../src/state/design/judged-pose.ts';

const POSE = { position: [4, -6, 152] as const, roll: 0.05, pitch: -0.08, yaw: 0.1 };

describe.each(['steady', 'roomy', 'even'] as const)('the loosest motion of the %s demo', (name) => {
  const { mechanism } = compiledDesign(DEMOS[name]);
  const { pose, independence } = judgePose(DEMOS[name], POSE);
  const motion = independence.loosestMotion;
  const jointsAt = (where: typeof pose) => {
    const origin = platformOrigin(where, mechanism.p_PoTo_P);
    return Array.from({ length: LEG_COUNT }, (_, i) =>
      add(origin, rotate(where.R_BP, at(mechanism.centres.platform, i))),
    );
  };

  it('starts as its twist says: leg lengths change at the stated rates', () => {
    const h = 1e-5;
    const ahead = legLengths(mechanism, loosePose(pose, motion, h));
    const behind = legLengths(mechanism, loosePose(pose, motion, -h));
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      expect((ahead[leg] - behind[leg]) / (2 * h)).toBeCloseTo(motion.legChanges[leg], 6);
    }
  });

  it('is drawn large enough to see and small enough to believe', () => {
    const amplitude = shownAmplitude(mechanism, motion, pose);
    const before = jointsAt(pose);
    const moved = jointsAt(loosePose(pose, motion, amplitude)).map((joint, i) => length(subtract(joint, before[i])));
    const tool = length(motion.translation) * amplitude;
    const most = Math.max(tool, ...moved) / mechanism.size;
    expect(most).toBeGreaterThan(0.12);
    expect(most).toBeLessThan(0.16);
  });

  it('says by how much it is larger than the play makes it', () => {
    const amplitude = shownAmplitude(mechanism, motion, pose);
    const times = shownTimes(motion, amplitude);
    if (name === 'even') {
      expect(times).toBeNull();
      return;
    }
    // to first order the true motion moves the most moved leg by just the play
    const h = 1e-4;
    const step = (h * amplitude) / (times ?? Number.NaN);
    const start = legLengths(mechanism, pose);
    const change = legLengths(mechanism, loosePose(pose, motion, step)).map((value, i) => Math.abs(value - start[i]));
    expect(Math.max(...change) / h).toBeCloseTo(REFERENCE_PLAY, 4);
  });
});

describe('the rock', () => {
  it('goes out, back, out on the other side and back, and joins up', () => {
    expect([0, 0.25, 0.5, 0.75].map((phase) => Math.round(1e9 * rockShare(phase)) / 1e9 + 0)).toEqual([0, 1, 0, -1]);
    expect(rockShare(1)).toBeCloseTo(rockShare(0), 12);
  });

  it('moves with the platform turned as the angles say', () => {
    const { mechanism } = compiledDesign(DEMOS.steady);
    const pose = poseFromAngles(POSE);
    const motion = judgePose(DEMOS.steady, POSE).independence.loosestMotion;
    const moved = loosePose(pose, motion, 0);
    expect(Array.from(moved.R_BP)).toEqual(expect.arrayContaining([expect.any(Number)]));
    moved.R_BP.forEach((entry, i) => expect(entry).toBeCloseTo(pose.R_BP[i], 14));
    expect(legLengths(mechanism, moved)).toEqual(legLengths(mechanism, { ...pose, R_BP: moved.R_BP }));
  });
});
