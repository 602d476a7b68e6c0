import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import type { DesignDocument } from '../../src/document/design.ts';
import { readDesign } from '../../src/document/read-design.ts';
import {
  STANDARD_SWEEP,
  type SweepDocument,
  sweepAxes,
  sweepOptions,
  sweepSize,
} from '../../src/document/sweep-file.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { addColumn, columnBatch } from '../../src/explore/column-batch.ts';
import { dimensionsAt } from '../../src/explore/grid.ts';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { StandingColumns } from '../../src/explore/standing-columns.ts';
import { sweepAbout } from '../../src/headless/explore/explore.ts';
import { sweepInProcesses } from '../../src/headless/explore/sweep-processes.ts';
import { tableColumns } from '../../src/headless/explore/table.ts';
import { isRingSpec, withDimensions, withoutHoles } from '../../src/kinematics/dimensions.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { compileMechanism, type Mechanism } from '../../src/kinematics/mechanism.ts';
import { seededRandom } from '../../src/math/random.ts';
import type { Mat3 } from '../../src/math/rotation.ts';
import { tiltsAbout } from '../explore/layouts.ts';

/**
 * The standard sweep of 216,000 layouts about the steady demo, every figure of every layout, written as table lines; against a plain
 * 20x20x20 point-by-point count of the reach alone, on a sample of the same layouts. Run: npx tsx tests/bench/sweep.bench.ts
 */
const SEED = 216;
const RUNS = 5;
const SAMPLE = 200;
const COUNTED_SIDE = 20;
const REFERENCE_SIDE = 200;
const REFERENCE_TILTS = 48;
const CORES = availableParallelism();

const read = readDesign(readFileSync(new URL('../../public/demos/steady.json', import.meta.url)));
if (!read.ok) throw new Error('the demo does not read');
const document: DesignDocument = read.value;
const { spec } = mechanismFromDocument(document);
if (!isRingSpec(spec)) throw new Error('the demo is not made of rings');
const design = withoutHoles(spec);

const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);
const quantile = (values: readonly number[], share: number) => sorted(values)[Math.round((values.length - 1) * share)];
const spread = (values: readonly number[], digits: number) =>
  `min ${quantile(values, 0).toFixed(digits)}  median ${quantile(values, 0.5).toFixed(digits)}  max ${quantile(values, 1).toFixed(digits)}`;

/** Seconds of one whole run, process start-up and table lines included. */
async function sweepSeconds(sweep: SweepDocument, processes: number): Promise<number> {
  const start = performance.now();
  const about = sweepAbout(document, sweep);
  if (!about.ok) throw new Error('the demo cannot be swept');
  let bytes = 0;
  await sweepInProcesses(
    { sweep: about.value, columns: tableColumns(sweep), kind: 'ndjson' },
    { from: 0, to: sweepSize(sweep) },
    processes,
    async (text) => {
      bytes += text.length;
    },
  );
  if (bytes === 0) throw new Error('an empty table');
  return (performance.now() - start) / 1000;
}

/** The standard sweep with fewer values along each variable. */
const sweepOf = (count: number): SweepDocument => ({
  ...STANDARD_SWEEP,
  variables: STANDARD_SWEEP.variables.map((variable) => ({ ...variable, count })),
});

/** Reach by a plain count of points in the box of half the longest leg's length around and above the base. */
function countedReach(mechanism: Mechanism, side: number): number {
  const half = mechanism.legs.max;
  const step = (2 * half) / side;
  let hits = 0;
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      for (let k = 0; k < side; k++) {
        const p_BoTo_B = [-half + (i + 0.5) * step, -half + (j + 0.5) * step, ((k + 0.5) * step) / 2] as const;
        const legs = legStates(mechanism, { p_BoTo_B, R_BP: mechanism.home.R_BP });
        if (legs.every((leg) => leg.violations.length === 0)) hits++;
      }
    }
  }
  return (hits * step ** 3) / 2;
}

/**
 * Reach at all of some orientations, the first of them level, by a square grid of columns over the reach's own extent in plan: exact
 * heights, plain midpoint rule.
 */
function referenceReach(mechanism: Mechanism, orientations: readonly Mat3[], side: number): number {
  const L = mechanism.legs.max;
  const level = loaded(mechanism, orientations.slice(0, 1));
  const all = loaded(mechanism, orientations);
  // first where the reach lies, then the sum there
  const { columns, area } = squareGrid(level, level, side, [-L, -L], [L, L]);
  const low = [L, L];
  const high = [-L, -L];
  columns.forEach(({ x, y, height }) => {
    if (height === 0) return;
    low[0] = Math.min(low[0], x);
    low[1] = Math.min(low[1], y);
    high[0] = Math.max(high[0], x);
    high[1] = Math.max(high[1], y);
  });
  if (high[0] < low[0]) return 0;
  const cell = Math.sqrt(area);
  const fine = squareGrid(level, all, side, [low[0] - cell, low[1] - cell], [high[0] + cell, high[1] + cell]);
  return fine.columns.reduce((volume, { height }) => volume + height, 0) * fine.area;
}

function loaded(mechanism: Mechanism, orientations: readonly Mat3[]): StandingColumns {
  const columns = new StandingColumns(orientations.length);
  columns.start(mechanism);
  for (const R of orientations) columns.add(mechanism, R);
  return columns;
}

/** Heights of side x side columns in a rectangle within the level shadow, and the area of one. */
function squareGrid(
  level: StandingColumns,
  standing: StandingColumns,
  side: number,
  low: readonly number[],
  high: readonly number[],
) {
  const batch = columnBatch(side * side);
  const width = (high[0] - low[0]) / side;
  const depth = (high[1] - low[1]) / side;
  for (let i = 0; i < side * side; i++) {
    addColumn(batch, low[0] + ((i % side) + 0.5) * width, low[1] + (Math.floor(i / side) + 0.5) * depth, width * depth);
  }
  standing.cut(batch);
  const columns = Array.from({ length: batch.count }, (_, n) => {
    const [x, y] = [batch.x[n], batch.y[n]];
    const height = level.withinShadow(x, y) ? Math.max(0, batch.top[n] - batch.bottom[n]) : 0;
    return { x, y, height };
  });
  return { columns, area: width * depth };
}

console.log(`${CORES} cores; seed ${SEED}; ${RUNS} runs of each sweep, wall-clock seconds from start to last line`);
const whole: number[] = [];
for (let run = 0; run < RUNS; run++) whole.push(await sweepSeconds(STANDARD_SWEEP, CORES));
console.log(`standard sweep, ${sweepSize(STANDARD_SWEEP)} layouts, ${CORES} processes: ${spread(whole, 2)} s`);

for (let processes = 1; processes <= CORES; processes++) {
  const seconds = await sweepSeconds(sweepOf(30), processes);
  console.log(`27,000 layouts in ${processes} process${processes > 1 ? 'es' : ''}: ${seconds.toFixed(2)} s`);
}
for (const count of [15, 30, 45]) {
  const seconds = await sweepSeconds(sweepOf(count), CORES);
  console.log(
    `${count ** 3} layouts: ${seconds.toFixed(2)} s, ${((1e6 * seconds) / count ** 3).toFixed(1)} us a layout`,
  );
}

// cost and error of one layout, this program's rows against the plain count, on the same sample in this one process
const random = seededRandom(SEED);
const grid = sweepAxes(STANDARD_SWEEP);
const mechanisms = Array.from({ length: SAMPLE }, () =>
  compileMechanism(withDimensions(design, dimensionsAt(grid, Math.floor(random() * sweepSize(STANDARD_SWEEP))))),
);
const figureOptions = sweepOptions(STANDARD_SWEEP);
const figures = new LayoutFigures(figureOptions);
const row = new Float64Array(FIGURE_COUNT);
for (const mechanism of mechanisms) figures.measure(mechanism, row);
const rowTimes: number[] = [];
const countTimes: number[] = [];
const rowErrors: number[] = [];
const tiltErrors: number[] = [];
const countErrors: number[] = [];
for (const mechanism of mechanisms) {
  let start = performance.now();
  figures.measure(mechanism, row);
  rowTimes.push((performance.now() - start) * 1000);
  const [reach, tiltReach] = row;
  start = performance.now();
  const counted = countedReach(mechanism, COUNTED_SIDE);
  countTimes.push((performance.now() - start) * 1000);
  const orientations = tiltsAbout(mechanism.home.R_BP, figureOptions.tilt, REFERENCE_TILTS);
  const reference = referenceReach(mechanism, orientations.slice(0, 1), REFERENCE_SIDE);
  if (reference === 0) continue;
  rowErrors.push(100 * Math.abs(reach / reference - 1));
  countErrors.push(100 * Math.abs(counted / reference - 1));
  const tiltReference = referenceReach(mechanism, orientations, REFERENCE_SIDE);
  if (tiltReference > 0) tiltErrors.push(100 * Math.abs(tiltReach / tiltReference - 1));
}
console.log(
  `one layout, all ${FIGURE_COUNT} figures:      ${spread(rowTimes, 1)} us; reach error ${spread(rowErrors, 3)} %`,
);
console.log(
  `one layout, ${COUNTED_SIDE}^3 points, reach alone: ${spread(countTimes, 0)} us; reach error ${spread(countErrors, 2)} %`,
);
console.log(
  `one layout, reach at ${REFERENCE_TILTS} tilts of ${STANDARD_SWEEP.tilt_deg} deg: error ${spread(tiltErrors, 3)} % over ${tiltErrors.length} layouts`,
);
const extrapolated = ((quantile(countTimes, 0.5) / 1e6) * sweepSize(STANDARD_SWEEP)) / CORES;
console.log(
  `the plain count of the whole standard sweep would take ${(extrapolated / 60).toFixed(0)} minutes on ${CORES} cores (extrapolated from ${SAMPLE} layouts)`,
);
console.log(
  `reach errors against ${REFERENCE_SIDE}x${REFERENCE_SIDE} columns over ${rowErrors.length} layouts that reach anything`,
);
console.log(`peak memory of this process ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`);
