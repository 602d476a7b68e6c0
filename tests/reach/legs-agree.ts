import { expect } from 'vitest';
import { legStates } from '../../src/kinematics/legs.ts';
import type { LimitName } from '../../src/kinematics/limits.ts';
import { type Random, uniform } from '../../src/math/random.ts';
import { CODE_COUNT, Constraints, legOf, limitOf, writeMargins } from '../../src/reach/columns/constraints.ts';
import type { RandomReach } from './random-layouts.ts';

/** Points tried in each layout, and how near to a limit rounding may decide [mm]. */
const POINTS = 60;
const ROUNDING = 1e-6;

/** How often each limit must have been broken for the comparison to mean something. */
const BROKEN_AT_LEAST = 500;

/** Expects the limits as surfaces about the apexes to be broken where the legs' own states say so, at random points of random layouts. */
export function expectLegsToAgree(
  random: Random,
  layouts: number,
  [low, high]: readonly [number, number],
  next: (random: Random) => RandomReach,
): void {
  const constraints = new Constraints();
  const margins = new Float64Array(CODE_COUNT);
  const broken: Record<LimitName, number> = { legTooShort: 0, legTooLong: 0, baseJoint: 0, platformJoint: 0 };
  for (let layout = 0; layout < layouts; layout++) {
    const { mechanism, R_BP } = next(random);
    constraints.setMechanism(mechanism, R_BP);
    for (let n = 0; n < POINTS; n++) {
      const t = [uniform(random, -150, 150), uniform(random, -150, 150), uniform(random, low, high)] as const;
      writeMargins(constraints, t[0], t[1], t[2], margins);
      const states = legStates(mechanism, { p_BoTo_B: t, R_BP });
      margins.forEach((margin, code) => {
        const breaks = states[legOf(code) - 1].violations.includes(limitOf(code));
        if (Math.abs(margin) > ROUNDING) expect(breaks).toBe(margin < 0);
        if (breaks) broken[limitOf(code)]++;
      });
    }
  }
  for (const count of Object.values(broken)) expect(count).toBeGreaterThan(BROKEN_AT_LEAST);
}
