import { describe, expect, it } from 'vitest';
import { LIMIT_NAMES } from '../../src/kinematics/limits.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { newBox, writeBoundingBox } from '../../src/reach/columns/bounding-box.ts';
import { ColumnReach } from '../../src/reach/columns/column.ts';
import { ACROSS } from '../../src/reach/columns/column-cutter.ts';
import {
  ALL_LIMITS,
  CODE_COUNT,
  Constraints,
  limitCode,
  limitOf,
  writeLimitNormal,
  writeMargins,
} from '../../src/reach/columns/constraints.ts';
import { leastMargin } from '../../src/reach/columns/deepest-point.ts';
import { tiltedReach } from './random-layouts.ts';

const SEED = 20;
const LAYOUTS = 40;

/**
 * Random cones of any width, apexes and axes all different: nothing that a real layout would spare.
 * @param many joints of none to two wide cones each, and some with a pair of planes of which one has to be kept
 */
function wildConstraints(random: () => number, many = false): Constraints {
  const constraints = new Constraints();
  constraints.min = uniform(random, 0.3, 0.8);
  constraints.max = constraints.min + uniform(random, 0.4, 1.2);
  const tilts = [uniform(random, 0.4, Math.PI), uniform(random, 0.4, Math.PI)];
  for (let i = 0; i < 18; i++) constraints.apexes[i] = uniform(random, -0.3, 0.3);
  for (let joint = 0; joint < 12; joint++) {
    if (!many) {
      addCone(constraints, joint, upward(random, 0), tilts[joint < 6 ? 0 : 1]);
      continue;
    }
    const cones = Math.floor(2.5 * random());
    for (let n = 0; n < cones; n++) addCone(constraints, joint, upward(random, -0.2), uniform(random, 1.3, Math.PI));
    if (random() < 0.3) {
      constraints.either[constraints.firstCones[12]] = 1;
      for (let n = 0; n < 2; n++) addCone(constraints, joint, upward(random, -1), Math.PI / 2);
    }
  }
  return constraints;
}

function upward(random: () => number, low: number): readonly number[] {
  const axis = [uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, low, 1)];
  return axis.map((part) => part / Math.hypot(...axis));
}

const addCone = (constraints: Constraints, joint: number, axis: readonly number[], tilt: number): void =>
  constraints.addCone(joint, axis, 0, Math.cos(tilt), Math.sin(tilt));

/** Second implementation: the angle and length conditions themselves, point by point. */
function allowed(constraints: Constraints, p: readonly number[]): boolean {
  const { apexes, axes, cosines, firstCones, either, min, max } = constraints;
  for (let leg = 0; leg < 6; leg++) {
    const q = [0, 1, 2].map((k) => p[k] - apexes[3 * leg + k]);
    const length = Math.hypot(...q);
    if (length < min || length > max) return false;
    const tilt = (cone: number) =>
      Math.acos(Math.max(-1, Math.min(1, q.reduce((sum, x, k) => sum + x * axes[3 * cone + k], 0) / length)));
    const keeps = (cone: number) => tilt(cone) <= Math.acos(cosines[cone]);
    for (const joint of [leg, 6 + leg])
      for (let cone = firstCones[joint]; cone < firstCones[joint + 1]; cone++) {
        const enough = either[cone] === 1 ? [cone, ++cone] : [cone];
        if (!enough.some(keeps)) return false;
      }
  }
  return true;
}

describe('columns', () => {
  const column = new ColumnReach();

  it.each([false, true])(
    `are allowed exactly where every length and tilt is, many cones a joint: %s (seed ${SEED})`,
    (many) => {
      const random = seededRandom(SEED);
      let inside = 0;
      for (let layout = 0; layout < 10 * LAYOUTS; layout++) {
        const constraints = wildConstraints(random, many);
        column.setLayout(constraints);
        for (const direction of [0, 1, 2] as const) {
          const [u, v] = ACROSS[direction];
          const point = [0, 0, 0];
          point[u] = uniform(random, -1, 1);
          point[v] = uniform(random, -1, 1);
          const count = column.cut(direction, point[u], point[v]);
          for (let n = 0; n < 60; n++) {
            point[direction] = uniform(random, -2, 2);
            const w = point[direction];
            const within = Array.from({ length: count }).some((_, i) => column.starts[i] <= w && w <= column.stops[i]);
            const distance = Math.abs(leastMargin([constraints], point));
            if (distance > 1e-9) expect(within).toBe(allowed(constraints, point));
            if (within) inside++;
          }
        }
      }
      expect(inside).toBeGreaterThan(500);
    },
  );

  it.each([false, true])(
    `end on the limit that they name, with its normal, many cones a joint: %s (seed ${SEED})`,
    (many) => {
      const random = seededRandom(SEED);
      const margins = new Float64Array(CODE_COUNT);
      const normal = new Float64Array(3);
      const seen = new Set<string>();
      for (let layout = 0; layout < 10 * LAYOUTS; layout++) {
        const constraints = wildConstraints(random, many);
        column.setLayout(constraints);
        for (const direction of [0, 1, 2] as const) {
          const [uAxis, vAxis] = ACROSS[direction];
          const u = uniform(random, -1, 1);
          const v = uniform(random, -1, 1);
          const count = column.cut(direction, u, v);
          for (let i = 0; i < count; i++) {
            for (const [end, code, slope] of [
              [column.starts[i], column.startCodes[i], column.startSlope(i)],
              [column.stops[i], column.stopCodes[i], column.stopSlope(i)],
            ]) {
              const point = [0, 0, 0];
              point[uAxis] = u;
              point[vAxis] = v;
              point[direction] = end;
              writeMargins(constraints, point[0], point[1], point[2], margins);
              expect(Math.abs(margins[code])).toBeLessThan(1e-9);
              expect(leastMargin([constraints], point)).toBeGreaterThan(-1e-9);
              writeLimitNormal(constraints, code, point, normal, 0);
              expect(slope).toBeCloseTo(Math.abs(normal[direction]), 9);
              // the normal points out of the reach: the margin falls along it at rate one
              const outer = point.map((x, k) => x + 1e-6 * normal[k]);
              writeMargins(constraints, outer[0], outer[1], outer[2], margins);
              expect(margins[code]).toBeCloseTo(-1e-6, 9);
              seen.add(limitOf(code));
            }
          }
        }
      }
      expect([...seen].sort()).toEqual([...LIMIT_NAMES].sort());
    },
  );

  it.each([1e-3, 1, 1e3])('scale with the layout (factor %d)', (factor) => {
    const random = seededRandom(SEED);
    const constraints = wildConstraints(random);
    column.setLayout(constraints);
    const lengths = Array.from({ length: 200 }, (_, n) => column.length(2, ((n % 20) - 10) / 10, (n / 20 - 5) / 5));
    constraints.min *= factor;
    constraints.max *= factor;
    constraints.apexes.forEach((x, i) => {
      constraints.apexes[i] = x * factor;
    });
    column.setLayout(constraints);
    lengths.forEach((length, n) => {
      const scaled = column.length(2, (factor * ((n % 20) - 10)) / 10, (factor * (n / 20 - 5)) / 5);
      expect(scaled / factor).toBeCloseTo(length, 10);
    });
  });

  it('leave out the limits that are switched off', () => {
    const random = seededRandom(SEED);
    const constraints = wildConstraints(random);
    constraints.freeJoints();
    for (let joint = 0; joint < 12; joint++)
      addCone(constraints, joint, upward(random, 0), joint < 6 ? 0.6 : Math.PI / 2);
    for (const limit of LIMIT_NAMES) {
      const bits = [1, 2, 3, 4, 5, 6].reduce((all, leg) => all | (1 << limitCode(limit, leg)), 0);
      constraints.enabled = ALL_LIMITS & ~bits;
      column.setLayout(constraints);
      for (let n = 0; n < 400; n++) {
        const count = column.cut(2, uniform(random, -1, 1), uniform(random, -1, 1));
        for (let i = 0; i < count; i++) expect(limitOf(column.startCodes[i])).not.toBe(limit);
      }
    }
    const one = limitCode('legTooLong', 4);
    constraints.enabled = 1 << one;
    column.setLayout(constraints);
    expect(column.cut(2, constraints.apexes[9], constraints.apexes[10])).toBe(1);
    expect(column.stops[0] - column.starts[0]).toBeCloseTo(2 * constraints.max, 12);
    expect([column.startCodes[0], column.stopCodes[0]]).toEqual([one, one]);
  });

  it(`stay within the bounding box (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    const constraints = new Constraints();
    const box = newBox();
    let cut = 0;
    for (let layout = 0; layout < LAYOUTS; layout++) {
      const { mechanism, R_BP } = tiltedReach(random);
      constraints.setMechanism(mechanism, R_BP);
      column.setLayout(constraints);
      const possible = writeBoundingBox(constraints, box);
      for (let n = 0; n < 400; n++) {
        const x = uniform(random, -200, 200);
        const y = uniform(random, -200, 200);
        const count = column.cut(2, x, y);
        if (count === 0) continue;
        cut++;
        expect(possible).toBe(true);
        expect(x > box[0] && x < box[3] && y > box[1] && y < box[4]).toBe(true);
        expect(column.starts[0]).toBeGreaterThan(box[2] - 1e-9);
        expect(column.stops[count - 1]).toBeLessThan(box[5] + 1e-9);
      }
    }
    expect(cut).toBeGreaterThan(100);
  });
});
