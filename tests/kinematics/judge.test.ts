import { describe, expect, it } from 'vitest';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { judgedAt, type PoseSettings } from '../../src/kinematics/judge.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { sameStiffness } from '../../src/kinematics/stiffness.ts';
import { DEG, referenceLayout, withKinds } from './designs.ts';

const judgePose = (mechanism: Mechanism, pose: Pose, settings: PoseSettings) =>
  judgedAt(mechanism, pose, assessArchitecture(mechanism), settings);

describe('judgement of a pose', () => {
  const mechanism = referenceLayout({ legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 } });
  const settings: PoseSettings = {
    errors: sameErrors({ ...NO_ERRORS, zero: 0.05 }),
    stiffness: sameStiffness({ leg: 800, baseJoint: 4000, platformJoint: 4000 }),
    load: payloadOnly({ mass: 2, centre: [0, 0, 0] }),
    clearance: defaultClearance(mechanism),
    screwLead: 0,
  };

  it('answers every question it has settings for', () => {
    const judgement = judgePose(mechanism, mechanism.home, settings);
    const { accuracy, stiffness, forces, clearance, offsets, jointStates, twists } = judgement;
    // trade figures for this layout: 159 um worst along x, 3.6 N a leg
    if (!accuracy.ok || !stiffness?.ok || !forces.ok || !clearance.ok || !offsets.ok) throw new Error('fault');
    expect(accuracy.value.worst.translation[0]).toBeCloseTo(0.159, 3);
    expect(forces.value.forces[0]).toBeCloseTo(3.6, 1);
    expect(stiffness.value.sag.translation[2]).toBeLessThan(0);
    expect(clearance.value.smallest?.distance).toBeGreaterThan(0);
    expect(jointStates).toHaveLength(6);
    expect(twists).toBeNull();
  });

  it('leaves out what it knows nothing of, and computes each part once', () => {
    const judgement = judgePose(mechanism, mechanism.home, { ...settings, stiffness: null });
    expect(judgement.stiffness).toBeNull();
    expect(judgement.accuracy).toBe(judgement.accuracy);
    expect(judgement.legs).toBe(judgement.legs);
  });

  it('reports leg twist between universal joints, and what has no value at a singular pose', () => {
    const universal = { kind: 'universal', first: { kind: 'tangential' }, secondLimit: 1 } as const;
    const pose = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 10 * DEG });
    const { twists } = judgePose(withKinds(mechanism, universal, universal), pose, { ...settings, screwLead: 8 });
    expect(twists).toHaveLength(6);
    const wall = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 90 * DEG });
    const { accuracy, stiffness, forces } = judgePose(mechanism, wall, settings);
    for (const part of [accuracy, stiffness, forces]) expect(part && !part.ok && part.fault.kind).toBe('singular');
  });
});
