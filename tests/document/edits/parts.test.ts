import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../../src/document/demos.ts';
import type { DesignDocument } from '../../../src/document/design.ts';
import { checked } from '../../../src/document/edits/edit.ts';
import {
  changeAccuracy,
  changeJointGive,
  changeJointKind,
  changeStiffness,
} from '../../../src/document/edits/judge.ts';
import {
  balanceEnd,
  changeBalanceEnd,
  changeGravity,
  changeInertia,
  changePull,
  changeSpring,
  chooseGravity,
  freeCentre,
  gravityKind,
  inertiaOf,
  pullOf,
  springOf,
  stateInertia,
  toggleBalance,
} from '../../../src/document/edits/load.ts';
import {
  changeOwnAzimuth,
  changeOwnRise,
  ownAxisAsNow,
  ownAzimuth,
  ownRise,
} from '../../../src/document/edits/own-axis.ts';
import {
  changeOwnError,
  changeOwnStiffness,
  legsApart,
  ownError,
  ownStiffness,
  sameErrorsAgain,
  sameStiffnessAgain,
} from '../../../src/document/edits/own-legs.ts';
import {
  changePayloadDiameter,
  changePayloadTurn,
  changePayloadVector,
  choosePayloadShape,
  payloadDiameter,
  payloadShapeKind,
  payloadTurn,
  payloadVector,
  withPayloadShape,
} from '../../../src/document/edits/payload-shape.ts';
import {
  addCorner,
  assumeBarrel,
  assumeBody,
  barrelLengthOf,
  bodyNumber,
  changeBodyNumber,
  changeCorner,
  chooseOutline,
  cornersOf,
  outlineKind,
  platformTop,
  removeCorner,
} from '../../../src/document/edits/plate-body.ts';
import { emptyDesign } from '../../../src/document/empty-design.ts';
import { judgementInputs } from '../../../src/document/judgement-inputs.ts';
import { mechanismFromDocument } from '../../../src/document/units.ts';
import { jointShapes } from '../../../src/kinematics/joint-limits.ts';
import { radians } from '../../../src/terms/units.ts';

const plain = emptyDesign();

/** The design as the validator gives it back. */
function valid(design: DesignDocument): DesignDocument {
  const result = checked(design);
  if (!result.ok) throw new Error(result.fault);
  return result.value;
}

const inputsOf = (design: DesignDocument) => judgementInputs(design, mechanismFromDocument(design));

describe('a leg of its own', () => {
  const common = changeAccuracy(plain, 'backlash_mm', 0.02);

  it('has its own error and keeps the others, and only it does', () => {
    const design = valid(changeOwnError(common, 2, 'backlash_mm', 0.2));
    expect(inputsOf(design).errors.map(({ backlash, zero }) => [backlash, zero])).toEqual(
      [0.02, 0.02, 0.2, 0.02, 0.02, 0.02].map((backlash) => [backlash, 0.05]),
    );
    expect(legsApart(design.accuracy?.ownByLeg)).toEqual([3]);
    expect(ownError(design, 2, 'backlash_mm')).toBe(0.2);
    expect(ownError(design, 3, 'backlash_mm')).toBe(0.02);
  });

  it('is like the others again with their number, or all at once', () => {
    const design = changeOwnError(changeOwnError(common, 2, 'backlash_mm', 0.2), 5, 'zero_mm', 0.4);
    expect(valid(changeOwnError(changeOwnError(design, 2, 'backlash_mm', 0.02), 5, 'zero_mm', 0.05))).toEqual(common);
    expect(valid(sameErrorsAgain(design))).toEqual(common);
    expect(sameErrorsAgain(plain)).toBe(plain);
  });

  it('does not follow when the number of all legs changes', () => {
    const design = changeAccuracy(changeOwnError(common, 0, 'backlash_mm', 0.3), 'backlash_mm', 0.1);
    expect(inputsOf(valid(design)).errors.map(({ backlash }) => backlash)).toEqual([0.3, 0.1, 0.1, 0.1, 0.1, 0.1]);
  });

  it('has its own stiffness, and loses that of its joints when joints become rigid', () => {
    const stated = changeJointGive(changeStiffness(plain, 'leg_N_mm', 800), 5000);
    const soft = changeOwnStiffness(changeOwnStiffness(stated, 1, 'leg_N_mm', 400), 1, 'baseJoint_N_mm', 900);
    expect(inputsOf(valid(soft)).stiffness?.slice(0, 2)).toEqual([
      { leg: 800, baseJoint: 5000, platformJoint: 5000 },
      { leg: 400, baseJoint: 900, platformJoint: 5000 },
    ]);
    expect(ownStiffness(soft, 1, 'baseJoint_N_mm')).toBe(900);
    const rigid = valid(changeJointGive(soft, null));
    expect(rigid.stiffness).toEqual({ leg_N_mm: 800, ownByLeg: [{}, { leg_N_mm: 400 }, {}, {}, {}, {}] });
    expect(ownStiffness(rigid, 1, 'baseJoint_N_mm')).toBeNull();
    expect(valid(sameStiffnessAgain(soft))).toEqual(stated);
    expect(changeOwnStiffness(plain, 1, 'leg_N_mm', 400)).toBe(plain);
  });
});

describe('the load', () => {
  it('falls down until it is told otherwise', () => {
    expect(gravityKind(plain)).toBe('down');
    const hung = valid(chooseGravity(plain, 'up'));
    expect([gravityKind(hung), inputsOf(hung).load.gravity[2]]).toEqual(['up', 9.80665]);
    const wall = valid(changeGravity(chooseGravity(plain, 'own'), 1, -1));
    expect(gravityKind(wall)).toBe('own');
    expect(inputsOf(wall).load.gravity[0]).toBeCloseTo(-9.80665 / Math.SQRT2, 12);
    expect(chooseGravity(wall, 'down')).toEqual(plain);
  });

  it('states the inertia that was counted, and gives it back to the shape', () => {
    const box = valid(choosePayloadShape({ ...plain, payload: { mass_kg: 3 } }, 'box'));
    // textbook: m (b^2 + c^2) / 12 of a box 60 x 60 x 40
    const moments = [(3 * (3600 + 1600)) / 12, (3 * (3600 + 1600)) / 12, (3 * 7200) / 12];
    expect(inertiaOf(box)).toEqual([...moments, 0, 0, 0]);
    const stated = valid(stateInertia(box, true));
    expect(stated.payload?.inertia_kg_mm2).toEqual(moments);
    expect(inputsOf(valid(changeInertia(stated, 2, 5))).load.payload.inertia).toEqual([moments[0], moments[1], 5]);
    expect(stateInertia(stated, false)).toEqual(box);
    expect(freeCentre({ ...box, payload: { mass_kg: 3, centre_mm: [1, 2, 3] } }).payload).toEqual({ mass_kg: 3 });
  });

  it.each(['counterweight', 'spring'] as const)('gains a %s and loses it without a trace', (kind) => {
    const balanced = valid(toggleBalance(plain, kind));
    expect(inputsOf(balanced).load.balances).toHaveLength(1);
    const moved = valid(changeBalanceEnd(balanced, kind, 'anchor_mm', 2, 333));
    expect(balanceEnd(moved, kind, 'anchor_mm')[2]).toBe(333);
    expect(toggleBalance(moved, kind)).toEqual(plain);
  });

  it('changes numbers of balances that are there only', () => {
    const both = toggleBalance(toggleBalance(plain, 'counterweight'), 'spring');
    expect(pullOf(valid(changePull(both, 12)))).toBe(12);
    expect(springOf(valid(changeSpring(both, 'rate_N_mm', 0.5)), 'rate_N_mm')).toBe(0.5);
    expect(changePull(plain, 12)).toBe(plain);
    expect(changeSpring(plain, 'rate_N_mm', 1)).toBe(plain);
    expect(changeBalanceEnd(plain, 'spring', 'attach_mm', 0, 1)).toBe(plain);
  });
});

describe('the shape of the payload', () => {
  it('stands on the platform plate', () => {
    for (const kind of ['box', 'cylinder'] as const) {
      const design = valid(choosePayloadShape(DEMOS.steady, kind));
      expect(payloadShapeKind(design)).toBe(kind);
      const { payload } = inputsOf(design).clearance;
      const bottom =
        payload?.kind === 'box'
          ? payload.centre[2] - payload.size[2] / 2
          : payload?.kind === 'cylinder'
            ? payload.from[2]
            : Number.NaN;
      expect(bottom).toBeCloseTo(platformTop(design), 9);
    }
  });

  it('goes and comes with its numbers changed one by one', () => {
    const box = changePayloadTurn(changePayloadVector(choosePayloadShape(plain, 'box'), 'size_mm', 1, 12), 30);
    expect([payloadVector(valid(box), 'size_mm'), payloadTurn(box)]).toEqual([[60, 12, 40], 30]);
    const round = changePayloadDiameter(changePayloadVector(choosePayloadShape(plain, 'cylinder'), 'to_mm', 0, 9), 25);
    expect([payloadVector(valid(round), 'to_mm')[0], payloadDiameter(round)]).toEqual([9, 25]);
    expect(choosePayloadShape(box, 'none').payload).toEqual({ mass_kg: 1 });
    expect(withPayloadShape(plain, null)).toBe(plain);
  });

  it('moves a hull as a whole', () => {
    const corners_mm = [
      [0, 0, 0],
      [10, 0, 0],
      [0, 20, 0],
      [0, 0, 30],
    ] as const;
    const design = withPayloadShape(plain, { hull: { corners_mm, source: 'tip.stl' } });
    expect(payloadVector(design, 'middle_mm')).toEqual([5, 10, 15]);
    const moved = valid(changePayloadVector(design, 'middle_mm', 2, 115));
    expect(moved.payload?.shape).toEqual({
      hull: { corners_mm: corners_mm.map(([x, y, z]) => [x, y, z + 100]), source: 'tip.stl' },
    });
    // a quarter of the sum of its four corners
    expect(inputsOf(moved).load.payload.centre).toEqual([2.5, 5, 107.5]);
  });
});

describe('the body of a plate', () => {
  it('starts as it was assumed and goes back to that', () => {
    const assumed = inputsOf(plain).clearance.plates.base;
    expect(outlineKind(plain, 'base')).toBe('assumed');
    const round = valid(chooseOutline(plain, 'base', 'round'));
    const taken = inputsOf(round).clearance.plates.base;
    if (taken?.outline.kind !== 'disc' || assumed?.outline.kind !== 'disc') throw new Error('not round');
    expect(taken.outline.radius).toBeCloseTo(assumed.outline.radius, 3);
    const thick = valid(changeBodyNumber(round, 'base', 'thickness_mm', 7));
    expect(bodyNumber(thick, 'base', 'thickness_mm')).toBe(7);
    expect(bodyNumber(thick, 'base', 'openingDiameter_mm')).toBe(0);
    expect(assumeBody(thick, 'base')).toEqual(plain);
    expect(assumeBody(plain, 'base')).toBe(plain);
  });

  it('has corners that hold the round plate, and can be added, moved and removed', () => {
    const hexagon = valid(chooseOutline(plain, 'platform', 'corners'));
    const [first] = cornersOf(hexagon, 'platform') ?? [];
    const assumed = inputsOf(plain).clearance.plates.platform?.outline;
    if (assumed?.kind !== 'disc') throw new Error('not round');
    // a regular hexagon around a circle
    expect(Math.hypot(...first)).toBeCloseTo(assumed.radius / Math.cos(Math.PI / 6), 3);
    const more = valid(changeCorner(addCorner(hexagon, 'platform', 0), 'platform', 1, 0, 90));
    expect(cornersOf(more, 'platform')).toHaveLength(7);
    expect(valid(removeCorner(more, 'platform', 1))).toEqual(hexagon);
    const inward = checked(changeCorner(addCorner(hexagon, 'platform', 0), 'platform', 1, 0, 10));
    expect(!inward.ok && inward.fault).toMatch(/convex/);
  });

  it('refuses an opening wider than the plate with a remedy', () => {
    const open = checked(changeBodyNumber(plain, 'base', 'openingDiameter_mm', 900));
    expect(!open.ok && open.fault).toMatch(
      /openingDiameter_mm is 900; it must be below .+ Lower it, or widen the plate\./,
    );
  });

  it('leaves the barrel to the assumption unless it is stated', () => {
    expect(barrelLengthOf(plain)).toBe(plain.legs.min_mm - plain.legs.rodDiameter_mm);
    const stated = { ...plain, legs: { ...plain.legs, barrelLength_mm: 77 } };
    expect(barrelLengthOf(stated)).toBe(77);
    expect(assumeBarrel(stated)).toEqual(plain);
  });
});

describe('a bolt with a direction of its own', () => {
  const rodEnds = changeJointKind(plain, 'base', 'rodEnd');

  it('starts as it pointed before', () => {
    const own = valid(ownAxisAsNow(rodEnds, 'base'));
    const [before, after] = [rodEnds, own].map((design) => jointShapes(mechanismFromDocument(design)).base);
    before.forEach((shape, leg) => {
      const now = after[leg];
      if (shape.kind !== 'rodEnd' || now.kind !== 'rodEnd') throw new Error('no rod end');
      shape.bolt.forEach((part, axis) => {
        expect(now.bolt[axis]).toBeCloseTo(part, 4);
      });
    });
    expect(ownAxisAsNow(own, 'base')).toBe(own);
  });

  it('turns joint by joint and rises together', () => {
    const own = changeOwnRise(changeOwnAzimuth(ownAxisAsNow(rodEnds, 'base'), 'base', 3, 45), 'base', 10);
    expect([ownAzimuth(valid(own), 'base', 3), ownRise(own, 'base')]).toEqual([45, 10]);
    const shape = jointShapes(mechanismFromDocument(own)).base[3];
    if (shape.kind !== 'rodEnd') throw new Error('no rod end');
    expect(shape.bolt[2]).toBeCloseTo(Math.sin(radians(10)), 12);
    expect(changeOwnAzimuth(rodEnds, 'base', 3, 45)).toBe(rodEnds);
  });
});
