import { describe, expect, it } from 'vitest';
import { addColumn, columnBatch } from '../../src/explore/column-batch.ts';
import { StandingColumns } from '../../src/explore/standing-columns.ts';
import { legAzimuths } from '../../src/kinematics/dimensions.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { compileMechanism, type Mechanism } from '../../src/kinematics/mechanism.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import type { Mat3 } from '../../src/math/rotation.ts';
import { DEG } from '../kinematics/designs.ts';
import { randomRingSpec, tableSpec, tiltsAbout } from './layouts.ts';

const SEED = 41;
const TILT = 9 * DEG;

/** A height this near to an end of a column may fall either way [mm]: rounding only. */
const NEAR_END = 1e-6;

const orientationsOf = (mechanism: Mechanism): readonly Mat3[] => tiltsAbout(mechanism.home.R_BP, TILT, 6);

function loaded(mechanism: Mechanism): StandingColumns {
  const columns = new StandingColumns(7);
  columns.start(mechanism);
  for (const R of orientationsOf(mechanism)) columns.add(mechanism, R);
  return columns;
}

/** Referee: the limits of the single-pose judgement, and every platform joint above its base joint. */
const allowed = (mechanism: Mechanism, x: number, y: number, z: number): boolean =>
  orientationsOf(mechanism).every((R_BP) =>
    legStates(mechanism, { p_BoTo_B: [x, y, z], R_BP }).every(
      (leg) => leg.violations.length === 0 && leg.platformJoint_B[2] >= leg.baseJoint_B[2],
    ),
  );

function expectColumnsAsJudged(mechanism: Mechanism, random: () => number): number {
  const batch = columnBatch(12);
  for (let n = 0; n < 12; n++) addColumn(batch, uniform(random, -60, 60), uniform(random, -60, 60), 0);
  loaded(mechanism).cut(batch);
  let inside = 0;
  for (let n = 0; n < batch.count; n++) {
    const [x, y, bottom, top] = [batch.x[n], batch.y[n], batch.bottom[n], batch.top[n]];
    for (let k = 0; k < 12; k++) {
      const z = k < 6 ? uniform(random, 0, mechanism.legs.max) : bottom + uniform(random, -0.1, 1.1) * (top - bottom);
      if (Math.abs(z - bottom) < NEAR_END || Math.abs(z - top) < NEAR_END) continue;
      const within = z > bottom && z < top;
      if (within) inside++;
      expect(allowed(mechanism, x, y, z), `seed ${SEED}, column ${x}, ${y} at ${z}`).toBe(within);
    }
  }
  return inside;
}

describe('standing columns', () => {
  it(`hold exactly the heights that every limit of a pose allows, at all orientations (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    let inside = 0;
    for (let n = 0; n < 60; n++) inside += expectColumnsAsJudged(compileMechanism(randomRingSpec(random)), random);
    expect(inside).toBeGreaterThan(200);
  });

  it('hold them where mounts lean further than their joints tilt', () => {
    const random = seededRandom(SEED + 1);
    const spec = tableSpec();
    const lean = (plate: 'base' | 'platform') =>
      ({ kind: 'leaning', lean: 25 * DEG, toward: legAzimuths(spec, plate) }) as const;
    const joints = {
      base: { tiltLimit: 22 * DEG, mount: lean('base') },
      platform: { tiltLimit: 60 * DEG, mount: lean('platform') },
    };
    let inside = 0;
    for (let n = 0; n < 60; n++) inside += expectColumnsAsJudged(compileMechanism(tableSpec({ joints })), random);
    expect(inside).toBeGreaterThan(20);
  });
});
