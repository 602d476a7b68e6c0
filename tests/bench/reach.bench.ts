import { type Random, seededRandom } from '../../src/math/random.ts';
import { ColumnLattice } from '../../src/reach/columns/column-lattice.ts';
import { Constraints } from '../../src/reach/columns/constraints.ts';
import { rectangleOf, spacingFor } from '../../src/reach/columns/footprint.ts';
import { integrate } from '../../src/reach/columns/integration.ts';
import { ReachMeter } from '../../src/reach/columns/meter.ts';
import { reachOverTilt } from '../../src/reach/columns/over-tilt.ts';
import { FixedOrientation } from '../../src/reach/columns/problem.ts';
import { reachCloud } from '../../src/reach/shell/cloud.ts';
import { reachShell } from '../../src/reach/shell/shell.ts';
import { levelReach, type RandomReach, tiltedReach } from '../reach/random-layouts.ts';

/**
 * Time and error of the reach of one layout to 0.5 %, against a plain 20x20x20 point-by-point count of the same layouts, both in
 * wall-clock time at steady state; errors against 90,000 columns. Run: npx tsx tests/bench/reach.bench.ts
 */
const SEED = 50;
const LAYOUTS = 50;
const ROUNDS = 9;
const COUNTED = 20;
const REFERENCE_COLUMNS = 90_000;

const meter = new ReachMeter();
const orientation = new FixedOrientation();
const lattice = new ColumnLattice();

function layouts(make: (random: Random) => RandomReach): RandomReach[] {
  const random = seededRandom(SEED);
  const found: RandomReach[] = [];
  while (found.length < LAYOUTS) {
    const layout = make(random);
    if (meter.measure(layout.mechanism, layout.R_BP).volume > 1000) found.push(layout);
  }
  return found;
}

const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);
const quantile = (values: readonly number[], share: number) => sorted(values)[Math.floor((values.length - 1) * share)];
const percent = (value: number) => `${(100 * value).toFixed(3)} %`;

/** Each layout's least time over the rounds, after one round of warming up [ms]; and all times. */
function timed(set: readonly RandomReach[], run: (layout: RandomReach) => void) {
  const best = set.map(() => Number.POSITIVE_INFINITY);
  const all: number[] = [];
  for (let round = 0; round <= ROUNDS; round++) {
    set.forEach((layout, n) => {
      const start = performance.now();
      run(layout);
      const time = performance.now() - start;
      if (round === 0) return;
      best[n] = Math.min(best[n], time);
      all.push(time);
    });
  }
  return { best, all };
}

function printTimes(name: string, { best, all }: { best: number[]; all: number[] }): void {
  const [min, median, worst] = [0, 0.5, 1].map((share) => quantile(best, share).toFixed(3));
  const [low, high] = [0.05, 0.95].map((share) => quantile(all, share).toFixed(3));
  console.log(
    `${name.padEnd(44)} min ${min}  median ${median}  worst layout ${worst} ms; all runs median ${quantile(all, 0.5).toFixed(3)}, 5 to 95 % ${low} to ${high} ms`,
  );
}

function printErrors(name: string, errors: readonly number[]): void {
  console.log(
    `${name.padEnd(44)} error median ${percent(quantile(errors, 0.5))}  worst ${percent(quantile(errors, 1))}`,
  );
}

function reference({ mechanism, R_BP }: RandomReach): number {
  const { bounds } = meter.measure(mechanism, R_BP);
  if (!bounds) return 0;
  const problem = orientation.problem(mechanism, R_BP);
  const wide = Float64Array.of(...bounds.low, ...bounds.high);
  for (let axis = 0; axis < 3; axis++) {
    const more = 0.1 * (bounds.high[axis] - bounds.low[axis]);
    wide[axis] -= more;
    wide[3 + axis] += more;
  }
  const footprint = rectangleOf(wide, 2);
  lattice.run(problem.cutter, 2, footprint, spacingFor(footprint, REFERENCE_COLUMNS));
  return lattice.volume();
}

const constraints = new Constraints();

/** All limits of all legs at a point, given up at the first that is broken. */
function keepsAll(point: readonly number[]): boolean {
  const { apexes, firstCones, axes, cosines, min, max } = constraints;
  for (let i = 0; i < 18; i += 3) {
    const x = point[0] - apexes[i];
    const y = point[1] - apexes[i + 1];
    const z = point[2] - apexes[i + 2];
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length < min || length > max) return false;
    for (let joint = i / 3; joint < 12; joint += 6) {
      for (let cone = firstCones[joint]; cone < firstCones[joint + 1]; cone++) {
        const a = 3 * cone;
        if (x * axes[a] + y * axes[a + 1] + z * axes[a + 2] < cosines[cone] * length) return false;
      }
    }
  }
  return true;
}

/** The plain way: count the cells of a box whose middle keeps all limits. Its error depends on how close the box is to the true one. */
function count({ mechanism, R_BP }: RandomReach, low: readonly number[], high: readonly number[]): number {
  constraints.setMechanism(mechanism, R_BP);
  const point = [0, 0, 0];
  const step = high.map((h, axis) => (h - low[axis]) / COUNTED);
  let inside = 0;
  for (let k = 0; k < COUNTED; k++) {
    point[2] = low[2] + (k + 0.5) * step[2];
    for (let j = 0; j < COUNTED; j++) {
      point[1] = low[1] + (j + 0.5) * step[1];
      for (let i = 0; i < COUNTED; i++) {
        point[0] = low[0] + (i + 0.5) * step[0];
        if (keepsAll(point)) inside++;
      }
    }
  }
  return inside * step[0] * step[1] * step[2];
}

for (const [name, make] of [
  ['tilted, leaning mounts', tiltedReach],
  ['level, symmetric', levelReach],
] as const) {
  const set = layouts(make);
  const exact = set.map(reference);
  console.log(`\n${name}: ${LAYOUTS} layouts, seed ${SEED}`);
  const measured = set.map(({ mechanism, R_BP }) => meter.measure(mechanism, R_BP));
  printTimes(
    'everything (volume, home part, box, shares)',
    timed(set, ({ mechanism, R_BP }) => meter.measure(mechanism, R_BP)),
  );
  printTimes(
    'volume alone',
    timed(set, ({ mechanism, R_BP }) => integrate(orientation.problem(mechanism, R_BP), lattice, 0.005, 60_000)),
  );
  printErrors(
    'measured volume',
    measured.map(({ volume }, n) => Math.abs(volume / exact[n] - 1)),
  );
  const held = measured.filter(
    ({ volume, errorEstimate }, n) => Math.abs(volume / exact[n] - 1) <= errorEstimate,
  ).length;
  console.log(`  error estimate held in ${held} of ${LAYOUTS}`);
  const boxes = measured.map(({ bounds }) => bounds ?? { low: [0, 0, 0], high: [1, 1, 1] });
  const counts = new Map(set.map((layout, n) => [layout, boxes[n]]));
  printTimes(
    `plain ${COUNTED}x${COUNTED}x${COUNTED} count in the true box`,
    timed(set, (layout) => {
      const box = counts.get(layout);
      if (box) count(layout, box.low, box.high);
    }),
  );
  printErrors(
    'counted in the true box',
    set.map((layout, n) => Math.abs(count(layout, boxes[n].low, boxes[n].high) / exact[n] - 1)),
  );
  printErrors(
    'counted in a box known beforehand',
    set.map((layout, n) => {
      const { box } = orientation.problem(layout.mechanism, layout.R_BP);
      const counted = count(layout, [box[0], box[1], box[2]], [box[3], box[4], box[5]]);
      return Math.abs(counted / exact[n] - 1);
    }),
  );
}

const few = layouts(tiltedReach).slice(0, 10);
console.log('\nfor the screen: 10 tilted layouts');
for (const points of [6000, 30_000]) {
  printTimes(
    `cloud of ${points} points`,
    timed(few, ({ mechanism, R_BP }) => reachCloud(mechanism, R_BP, { points })),
  );
}
for (const resolution of [24, 32, 40]) {
  printTimes(
    `shell at ${resolution} cells`,
    timed(few, ({ mechanism, R_BP }) => reachShell(mechanism, R_BP, { resolution })),
  );
}
printTimes(
  'all orientations, tilt 8 deg and yaw 5 deg',
  timed(few.slice(0, 4), ({ mechanism, R_BP }) => reachOverTilt(mechanism, { tilt: 0.14, yaw: 0.087, R_BP })),
);
