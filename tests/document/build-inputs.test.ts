import { expect, it } from 'vitest';
import { buildInputs } from '../../src/document/build-inputs.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { judgeBuildable } from '../../src/kinematics/buildable/judge.ts';

const { steady } = DEMOS;
const mechanism = mechanismFromDocument(steady);

it('takes the width of joints and the dead length of legs from the parts, and else what is usual', () => {
  const usual = buildInputs(steady, mechanism);
  expect(usual.mountings.base.footprint).toEqual({ kind: 'circle', diameter: steady.legs.barrelDiameter_mm });
  const parts = { baseJointDiameter_mm: 30, platformJointDiameter_mm: 25, deadLength_mm: 45 };
  const own = buildInputs({ ...steady, parts }, mechanism);
  expect(own.mountings.base.footprint).toEqual({ kind: 'circle', diameter: 30 });
  expect(own.mountings.platform.footprint).toEqual({ kind: 'circle', diameter: 25 });
  // 24.3107 mm between the axes of a platform pair; twice 120 less 200 leaves 40 of the 45 mm
  const { possible, gaps } = judgeBuildable(mechanism, own);
  expect(possible).toBe(false);
  expect(gaps.find(({ rule }) => rule === 'jointsApart')).toMatchObject({
    plate: 'platform',
    gap: expect.closeTo(-1.6893, 4),
  });
  expect(gaps.find(({ rule }) => rule === 'actuator')?.gap).toBe(-5);
});

it('takes plates that are drawn', () => {
  const base = { outlineDiameter_mm: 260, thickness_mm: 8, openingDiameter_mm: 60 };
  const { mountings } = buildInputs({ ...steady, plates: { base } }, mechanism);
  expect(mountings.base.plate).toEqual({ diameter: 260, opening: 60, thickness: 8 });
  expect(mountings.platform.plate).toBeNull();
});
