/**
 * Forward kinematics: the live solve from a nearby guess and from home, and the search for all poses.
 * Run: npx tsx tests/bench/forward.bench.ts
 */
import { NearSolver, solveAll } from '../../src/kinematics/forward.ts';
import type { JointCentres } from '../../src/kinematics/layout.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { quaternionFromRotation, rotationFromAngles } from '../../src/math/rotation.ts';
import {
  DEG,
  lengthsByThree,
  pairedRings,
  REFERENCE,
  randomAnyPose,
  randomCentres,
} from '../kinematics/forward-layouts.ts';
import published from '../published/data/assembly-modes-40.json' with { type: 'json' };

const SEED = 2024;
const random = seededRandom(SEED);
const within = (half: number): number => uniform(random, -half, half);

/** Prints min, median and the 90th and 99th percentile of times. */
function print(name: string, times: number[], unit: string): void {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number): string =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(2);
  console.log(
    `${name.padEnd(58)} min ${at(0)}  median ${at(0.5)}  p90 ${at(0.9)}  p99 ${at(0.99)}  max ${at(1)} ${unit}  (n ${times.length})`,
  );
}

interface LiveCase {
  readonly lengths: Float64Array;
  readonly position: Float64Array;
  readonly quaternion: Float64Array;
}

/** Poses of the reference layout with legs of 120 to 200, each with a guess `shift` [mm] and `turn` [deg] away at most. */
function liveCases(
  count: number,
  tilt: number,
  yaw: number,
  guess: { shift: number; turn: number } | 'home',
): LiveCase[] {
  const cases: LiveCase[] = [];
  while (cases.length < count) {
    const position = [within(150), within(150), uniform(random, 20, 220)] as const;
    const angles = { roll: within(tilt) * DEG, pitch: within(tilt) * DEG, yaw: within(yaw) * DEG };
    const lengths = lengthsByThree(REFERENCE, { p_BoTo_B: position, R_BP: rotationFromAngles(angles) });
    if (!lengths.every((length) => length >= 120 && length <= 200)) continue;
    if (guess === 'home') {
      cases.push({ lengths, position: Float64Array.of(0, 0, 150), quaternion: Float64Array.of(1, 0, 0, 0) });
      continue;
    }
    const { shift, turn } = guess;
    const off = { roll: within(turn) * DEG, pitch: within(turn) * DEG, yaw: within(turn) * DEG };
    const near = { roll: angles.roll + off.roll, pitch: angles.pitch + off.pitch, yaw: angles.yaw + off.yaw };
    cases.push({
      lengths,
      position: Float64Array.from(position, (value) => value + within(shift)),
      quaternion: Float64Array.from(quaternionFromRotation(rotationFromAngles(near))),
    });
  }
  return cases;
}

/** Times batches of 20 poses, since one is too short for the clock; the numbers are per pose. */
function liveBench(name: string, cases: readonly LiveCase[]): void {
  const BATCH = 20;
  const solver = new NearSolver(REFERENCE);
  const pass = (): { times: number[]; unsolved: number; worst: number; steps: number } => {
    const times: number[] = [];
    let unsolved = 0;
    let worst = 0;
    let steps = 0;
    for (let from = 0; from < cases.length; from += BATCH) {
      const started = performance.now();
      for (let i = from; i < from + BATCH; i++) {
        const { lengths, position, quaternion } = cases[i];
        if (solver.solve(lengths, position, quaternion) !== 'solved') unsolved++;
        worst = Math.max(worst, solver.residual);
        steps += solver.iterations;
      }
      times.push(((performance.now() - started) * 1000) / BATCH);
    }
    return { times, unsolved, worst, steps };
  };
  pass();
  pass();
  const { times, unsolved, worst, steps } = pass();
  print(name, times, 'us a pose');
  console.log(
    `    unsolved ${unsolved} of ${cases.length}, ${(steps / cases.length).toFixed(2)} steps a pose, worst length error ${worst.toExponential(1)} mm`,
  );
}

interface AllCase {
  readonly centres: JointCentres;
  readonly lengths: ArrayLike<number>;
}

function allBench(name: string, cases: readonly AllCase[]): void {
  const times: number[] = [];
  let incomplete = 0;
  let poses = 0;
  for (const { centres, lengths } of cases) {
    const started = performance.now();
    const found = solveAll(centres, lengths);
    times.push(performance.now() - started);
    if (!found.ok || !found.value.complete) incomplete++;
    if (found.ok) poses += found.value.poses.length;
  }
  print(name, times, 'ms');
  console.log(`    ${poses} poses in all, ${incomplete} not complete`);
}

console.log(`forward kinematics, seed ${SEED}, one core, ${process.version}`);
liveBench('live, guess within 1 mm and 1 deg', liveCases(20000, 30, 60, { shift: 1, turn: 1 }));
liveBench('live, guess within 5 mm and 3 deg', liveCases(20000, 30, 60, { shift: 5, turn: 3 }));
liveBench('live, home as the guess, tilt to 30, yaw to 60 deg', liveCases(20000, 30, 60, 'home'));

const fortyPoses: AllCase = {
  centres: {
    base: Float64Array.from(published.base.flat()),
    platform: Float64Array.from(published.platform.flat()),
  },
  lengths: published.legs,
};
const posed = (centres: JointCentres): AllCase => ({
  centres,
  lengths: lengthsByThree(centres, randomAnyPose(random)),
});
const draw = (count: number, make: () => JointCentres): AllCase[] => Array.from({ length: count }, () => posed(make()));
allBench(
  'all poses, the published layout with 40',
  Array.from({ length: 20 }, () => fortyPoses),
);
allBench(
  'all poses, random general layouts',
  draw(60, () => randomCentres(random)),
);
allBench(
  'all poses, random planar layouts',
  draw(60, () => randomCentres(random, true)),
);
allBench(
  'all poses, rings of pairs, any gaps',
  draw(60, () => pairedRings(1, within(1) * 25 + 28, uniform(random, 0.5, 1), within(1) * 25 + 28)),
);
const yaw90 = rotationFromAngles({ roll: 0, pitch: 0, yaw: 90 * DEG });
allBench(
  'all poses, lengths of a singular pose (worst kind)',
  Array.from({ length: 10 }, () => ({
    centres: REFERENCE,
    lengths: lengthsByThree(REFERENCE, { p_BoTo_B: [0, 0, 150], R_BP: yaw90 }),
  })),
);
