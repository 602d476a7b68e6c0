import { describe, expect, it } from 'vitest';
import type { DesignDocument } from '../../../src/document/design.ts';
import { checked } from '../../../src/document/edits/edit.ts';
import {
  addKeepOut,
  changeAccuracy,
  changeCentre,
  changeCrossAxis,
  changeForce,
  changeJointGive,
  changeJointKind,
  changeMass,
  changeSecondTilt,
  changeShapeDiameter,
  changeShapeVector,
  changeStiffness,
  changeTorque,
  fixKeepOut,
  removeKeepOut,
  renameKeepOut,
} from '../../../src/document/edits/judge.ts';
import { emptyDesign } from '../../../src/document/empty-design.ts';
import { judgementInputs } from '../../../src/document/judgement-inputs.ts';
import { mechanismFromDocument } from '../../../src/document/units.ts';
import { judgePose } from '../../../src/state/design/judged-pose.ts';

const plain = emptyDesign();

/** The design as the validator gives it back. */
function valid(design: DesignDocument): DesignDocument {
  const result = checked(design);
  if (!result.ok) throw new Error(result.fault);
  return result.value;
}

describe('the first edit of what was assumed', () => {
  it('keeps the assumed leg error as a number of the design', () => {
    expect(valid(changeAccuracy(plain, 'backlash_mm', 0.1)).accuracy).toEqual({ zero_mm: 0.05, backlash_mm: 0.1 });
  });

  it('keeps the assumed payload when its centre moves', () => {
    const moved = valid(changeCentre(plain, 2, 40));
    expect(moved.payload).toEqual({ mass_kg: 1, centre_mm: [0, 0, 40] });
    expect(valid(changeMass(moved, 3)).payload).toEqual({ mass_kg: 3, centre_mm: [0, 0, 40] });
  });

  it('changes nothing that is judged but the number itself', () => {
    const before = judgementInputs(plain, mechanismFromDocument(plain));
    const edited = valid(changeMass(plain, 1));
    const after = judgementInputs(edited, mechanismFromDocument(edited));
    expect(after.load).toEqual(before.load);
  });
});

it('sets outside force and torque one number at a time', () => {
  const pushed = valid(changeTorque(changeForce(changeForce(plain, 0, 5), 2, -1), 1, 200));
  expect(pushed.load).toEqual({ force_N: [5, 0, -1], torque_N_mm: [0, 200, 0] });
});

it('states stiffness, lets joints give, and makes them rigid again', () => {
  const legs = valid(changeStiffness(plain, 'leg_N_mm', 800));
  expect(legs.stiffness).toEqual({ leg_N_mm: 800 });
  const joints = valid(changeJointGive(legs, 5000));
  expect(joints.stiffness).toEqual({ leg_N_mm: 800, baseJoint_N_mm: 5000, platformJoint_N_mm: 5000 });
  expect(valid(changeJointGive(joints, null)).stiffness).toEqual({ leg_N_mm: 800 });
  expect(checked(changeStiffness(legs, 'leg_N_mm', 0)).ok).toBe(false);
});

it('adds, shapes, names, fixes and removes keep-out volumes, and leaves no empty list', () => {
  const two = valid(addKeepOut(addKeepOut(plain, 'cylinder'), 'box'));
  const shaped = valid(changeShapeDiameter(changeShapeVector(two, 0, 'to_mm', 2, 120), 0, 12));
  expect(shaped.keepOuts?.[0].shape).toEqual({ cylinder: { from_mm: [0, 0, 0], to_mm: [0, 0, 120], diameter_mm: 12 } });
  const named = valid(fixKeepOut(renameKeepOut(shaped, 1, 'sensor'), 1, 'platform'));
  expect(named.keepOuts?.[1]).toMatchObject({ name: 'sensor', fixedTo: 'platform' });
  expect(valid(removeKeepOut(removeKeepOut(named, 0), 0))).toEqual(plain);
});

describe('joint kinds', () => {
  it('drop what only the old kind had', () => {
    const universal = valid(
      changeSecondTilt(changeCrossAxis(changeJointKind(plain, 'base', 'universal'), 'base', 'radial'), 'base', 15),
    );
    expect(universal.joints.base).toMatchObject({ kind: 'universal', firstAxis: 'radial', secondTilt_deg: 15 });
    const rodEnd = valid(changeCrossAxis(changeJointKind(universal, 'base', 'rodEnd'), 'base', 'tangential'));
    expect(rodEnd.joints.base).toEqual({ kind: 'rodEnd', tilt_deg: 25, mount: 'aimed', bolt: 'tangential' });
    expect(valid(changeJointKind(rodEnd, 'base', 'ball'))).toEqual(plain);
  });

  it('are what the table of legs judges by', () => {
    // square mounts: every leg leans 23.3 deg at home, all of it round a bolt across the leg, so 14 deg across are enough
    const square = { kind: 'rodEnd', tilt_deg: 14, mount: 'square' } as const;
    const rodEnds = valid({ ...plain, joints: { ...plain.joints, base: square } });
    expect(judgePose(rodEnds, null).legs.flatMap(({ violations }) => violations)).toEqual([]);
    const balls = valid({ ...plain, joints: { ...plain.joints, base: { ...square, kind: 'ball' } } });
    expect(judgePose(balls, null).legs.flatMap(({ violations }) => violations)).toEqual(Array(6).fill('baseJoint'));
  });
});
