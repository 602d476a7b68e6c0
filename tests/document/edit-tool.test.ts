import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { changeHome, changeTool, changeToolOnPlate } from '../../src/document/edits/edit.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { legLengths } from '../../src/kinematics/legs.ts';

/** Lengths of the legs at home: they tell where the plate stands. */
const atHome = (document: Parameters<typeof mechanismFromDocument>[0]): readonly number[] => {
  const mechanism = mechanismFromDocument(document);
  return [...legLengths(mechanism, mechanism.home)];
};

describe('moving the tool point', () => {
  const tilted = changeHome(changeHome(DEMOS.steady, 3, 8), 5, 25);

  it.each([0, 1, 2])('leaves the plate where it stands at home, also when home is turned (axis %d)', (axis) => {
    const moved = changeToolOnPlate(tilted, axis, 31);
    expect(moved.tool.point_mm[axis]).toBe(31);
    // a plate that has not moved has legs of the same length: no formula of ours is asked
    atHome(moved).forEach((length, leg) => expect(length).toBeCloseTo(atHome(tilted)[leg], 9));
  });

  it('on demand keeps the numbers of home instead, and the plate sinks by as much', () => {
    const moved = changeTool(DEMOS.steady, 2, DEMOS.steady.tool.point_mm[2] + 20);
    expect(moved.home).toEqual(DEMOS.steady.home);
    expect(atHome(moved)[0]).toBeLessThan(atHome(DEMOS.steady)[0]);
  });
});
