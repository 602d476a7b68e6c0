import { describe, expect, it } from 'vitest';
import { addColumn, columnBatch } from '../../src/explore/column-batch.ts';
import { StandingColumns } from '../../src/explore/standing-columns.ts';
import { TiltedColumns } from '../../src/explore/tilted-columns.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { compileMechanism, type Mechanism, type MechanismSpec } from '../../src/kinematics/mechanism.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';
import type { Mat3 } from '../../src/math/rotation.ts';
import { DEG } from '../kinematics/designs.ts';
import { randomRingSpec, tiltsAbout } from './layouts.ts';

const SEED = 24;
const COLUMNS = 12;

/** Directions in which the referee tilts the platform. */
const DIRECTIONS = 180;

/** What an end of a column may be off by, as a share of the longest leg: the worst direction is not found exactly. */
const OFF = 0.01;

/** Referee: the limits of the single-pose judgement at many tilts, and every platform joint above its base joint. */
const allowed = (mechanism: Mechanism, orientations: readonly Mat3[], x: number, y: number, z: number): boolean =>
  orientations.every((R_BP) =>
    legStates(mechanism, { p_BoTo_B: [x, y, z], R_BP }).every(
      (leg) => leg.violations.length === 0 && leg.platformJoint_B[2] >= leg.baseJoint_B[2],
    ),
  );

function columnsOf(mechanism: Mechanism, tilt: number, random: Random) {
  const level = new StandingColumns(1);
  level.start(mechanism);
  level.add(mechanism, mechanism.home.R_BP);
  const tilted = new TiltedColumns(level);
  tilted.start(mechanism, tilt);
  const batch = columnBatch(COLUMNS);
  for (let n = 0; n < COLUMNS; n++) addColumn(batch, uniform(random, -50, 50), uniform(random, -50, 50), 0);
  tilted.cut(batch);
  return batch;
}

/** Both ends of every column hold what the referee says: allowed within, forbidden beyond. @returns columns with anything left */
function expectAsJudged(spec: MechanismSpec, tilt: number, random: Random): number {
  const mechanism = compileMechanism(spec);
  const orientations = tiltsAbout(mechanism.home.R_BP, tilt, DIRECTIONS);
  const off = OFF * mechanism.legs.max;
  const { x, y, bottom, top } = columnsOf(mechanism, tilt, random);
  let left = 0;
  for (let n = 0; n < COLUMNS; n++) {
    const at = `seed ${SEED}, column ${x[n]}, ${y[n]} from ${bottom[n]} to ${top[n]}`;
    const judge = (z: number) => allowed(mechanism, orientations, x[n], y[n], z);
    if (top[n] - bottom[n] < 3 * off) continue;
    left++;
    expect(judge(bottom[n] + off), at).toBe(true);
    expect(judge(top[n] - off), at).toBe(true);
    expect(judge((bottom[n] + top[n]) / 2), at).toBe(true);
    expect(judge(bottom[n] - off), at).toBe(false);
    expect(judge(top[n] + off), at).toBe(false);
  }
  return left;
}

describe('columns over all tilts', () => {
  it.each([3, 10, 20])(`end where tilts of %d deg end them, toward ${DIRECTIONS} directions (seed ${SEED})`, (tilt) => {
    const random = seededRandom(SEED);
    let left = 0;
    for (let n = 0; n < 40; n++) left += expectAsJudged(randomRingSpec(random), tilt * DEG, random);
    expect(left).toBeGreaterThan(10);
  });

  it(`end there too where the tool stands off the plate (seed ${SEED})`, () => {
    const random = seededRandom(SEED + 1);
    let left = 0;
    for (let n = 0; n < 40; n++) {
      const tool = [uniform(random, -15, 15), uniform(random, -15, 15), uniform(random, -50, 50)] as const;
      left += expectAsJudged({ ...randomRingSpec(random), tool }, 8 * DEG, random);
    }
    expect(left).toBeGreaterThan(10);
  });

  it('are those of the home orientation where nothing tilts', () => {
    const random = seededRandom(SEED);
    const mechanism = compileMechanism(randomRingSpec(random));
    const batch = columnsOf(mechanism, 0, random);
    const level = new StandingColumns(1);
    level.start(mechanism);
    level.add(mechanism, mechanism.home.R_BP);
    const plain = columnBatch(COLUMNS);
    for (let n = 0; n < COLUMNS; n++) addColumn(plain, batch.x[n], batch.y[n], 0);
    level.cut(plain);
    expect(batch.bottom).toEqual(plain.bottom);
    expect(batch.top).toEqual(plain.top);
  });
});
