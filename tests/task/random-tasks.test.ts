import { describe, expect, it } from 'vitest';
import { assessAccuracy } from '../../src/kinematics/accuracy.ts';
import { assessClearance } from '../../src/kinematics/clearance.ts';
import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { seededRandom } from '../../src/math/random.ts';
import { rotationFromQuaternion } from '../../src/math/rotation.ts';
import { JUDGE_FULLY, RequirementJudge } from '../../src/task/judge-requirement.ts';
import type { TaskLine } from '../../src/task/line.ts';
import { demandsAt, denseSearch, fromAngles } from './dense-search.ts';
import { randomTask } from './random-tasks.ts';

/** How near asked figures must be to what a search of a hundred times the effort finds. */
const MILLIMETRES = 0.05;
const RADIANS = (0.05 * Math.PI) / 180;

/** Poses drawn against every certificate here; `npm run bench -- certificates` draws a million a task. */
const DRAWS = 10_000;

/** Poses at which error, forces and clearance are looked at one by one: each costs a hundred of the others. */
const SLOW_DRAWS = 150;

const FIRST_SEED = 9100;
const TASKS = 50;

describe.each(Array.from({ length: TASKS }, (_, n) => FIRST_SEED + n))('random task, seed %i', (seed) => {
  const random = seededRandom(seed);
  const { mechanism, requirement, parts } = randomTask(random);
  const report = new RequirementJudge(mechanism, parts).judge(requirement, JUDGE_FULLY);
  const shapes = jointShapes(mechanism);
  const one = (quantity: TaskLine['quantity'], axis: TaskLine['axis'] = null): TaskLine => {
    const found = report.lines.find((line) => line.quantity === quantity && line.axis === axis);
    if (!found) throw new Error(`no line ${quantity}`);
    return found;
  };
  const tilts = report.lines.filter(({ quantity }) => quantity === 'baseTilt' || quantity === 'platformTilt');
  /** In the order of the dense search. */
  const lines = [one('shortestLeg'), one('longestLeg'), ...tilts];

  it('asks no less than a search of a hundred times the effort, and what it asks is asked at its pose', () => {
    const beyond: string[] = [];
    let drawn = 0;
    const found = denseSearch(mechanism, requirement.region, random, DRAWS, (demands, pose) => {
      demands.forEach((value, n) => {
        const { bound, quantity } = lines[n];
        if (bound !== null && (n === 0 ? value < bound : value > bound))
          beyond.push(`${quantity} ${value} past ${bound}`);
      });
      if (drawn++ >= SLOW_DRAWS) return;
      const posed = { p_BoTo_B: pose.t, R_BP: rotationFromQuaternion(pose.q) };
      const error = assessAccuracy(mechanism, posed, parts.errors);
      const forces = assessForces(mechanism, posed, requirement.load);
      const clearance = assessClearance(mechanism, posed, requirement.clearance);
      const worst = one('toolError');
      if (error.ok && worst.asked !== null) {
        const { translationLength } = error.value.worst;
        expect(translationLength).toBeLessThanOrEqual(worst.asked + MILLIMETRES);
        if (worst.bound !== null) expect(translationLength).toBeLessThanOrEqual(worst.bound);
      }
      const { bound: mostPush } = one('pushForce');
      if (forces.ok && mostPush !== null) expect(Math.max(...forces.value.forces)).toBeLessThanOrEqual(mostPush);
      const nearest = clearance.ok ? clearance.value.smallest : null;
      const seen = one('clearance').asked;
      if (nearest && seen !== null && seen > 0) expect(nearest.distance).toBeGreaterThanOrEqual(seen - MILLIMETRES);
    });
    expect(beyond).toEqual([]);
    lines.forEach(({ asked, pose, quantity }, n) => {
      if (asked === null || pose === null) throw new Error(`${quantity} has no figure`);
      const tolerance = n < 2 ? MILLIMETRES : RADIANS;
      const worse = n === 0 ? -asked : asked;
      expect(worse, quantity).toBeGreaterThanOrEqual(found[n] - tolerance);
      const { position, roll, pitch, yaw } = pose;
      const there = demandsAt(mechanism, shapes, { t: position, q: fromAngles(roll, pitch, yaw) });
      expect(there[n], quantity).toBeCloseTo(asked, 6);
    });
  });

  it('prints the error and the clearance that its poses have', () => {
    const error = one('toolError');
    if (error.asked !== null && error.pose && error.margin !== Number.NEGATIVE_INFINITY) {
      const there = assessAccuracy(mechanism, poseFromAngles(error.pose), parts.errors);
      if (!there.ok) throw new Error(there.fault.message);
      expect(there.value.worst.translationLength).toBeCloseTo(error.asked, 9);
    }
    const { asked, pose } = one('clearance');
    if (asked === null || pose === null || asked <= 0) return;
    const there = assessClearance(mechanism, poseFromAngles(pose), requirement.clearance);
    if (!there.ok) throw new Error(there.fault.message);
    expect(there.value.smallest?.distance).toBeCloseTo(asked, 6);
  });
});
