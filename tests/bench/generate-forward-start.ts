/**
 * Writes src/kinematics/forward/start-system.ts: a complex parameter set of the leg quadrics with its 40 solutions.
 * Run: npx tsx tests/bench/generate-forward-start.ts
 *
 * Monodromy: parameters and one solution are drawn together (the lengths follow from the solution). Tracking it round
 * closed loops in parameter space permutes the 40 solutions and so turns up the others. 40 is the proven count
 * (see leg-quadrics.ts), so the search ends there. No layout of any check goes into it.
 */
import { writeFileSync } from 'node:fs';
import {
  type ComplexArray,
  complexArray,
  LegQuadrics,
  PARAMETER_COUNT,
  PARAMETERS_PER_LEG,
  UNKNOWNS,
} from '../../src/kinematics/forward/leg-quadrics.ts';
import { PathTracker } from '../../src/kinematics/forward/path-tracker.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';

const SOLUTIONS = 40;
const CARE = { predictionError: 1e-5, stepLimit: 4000 };
/** Solutions closer than this on the unit sphere are the same one; distinct ones are some 0.05 apart here. */
const SAME = 1e-6;

const fill = (array: ComplexArray, random: Random, size: number): void => {
  for (let i = 0; i < array.re.length; i++) {
    const radius = size * Math.sqrt(random());
    const angle = uniform(random, 0, 2 * Math.PI);
    array.re[i] = radius * Math.cos(angle);
    array.im[i] = radius * Math.sin(angle);
  }
};

/** Random parameters; with a random point the squared lengths are set so that the point solves them. */
function drawStart(random: Random): { parameters: ComplexArray; point: ComplexArray } {
  const parameters = complexArray(PARAMETER_COUNT);
  fill(parameters, random, 1);
  const point = complexArray(UNKNOWNS);
  fill(point, random, 1);
  // <e, h> = 0 settles h_0: h_0 = -(e_1 h_1 + e_2 h_2 + e_3 h_3) / e_0
  let re = 0;
  let im = 0;
  for (let j = 1; j < 4; j++) {
    re -= point.re[j] * point.re[4 + j] - point.im[j] * point.im[4 + j];
    im -= point.re[j] * point.im[4 + j] + point.im[j] * point.re[4 + j];
  }
  [point.re[4], point.im[4]] = divide(re, im, point.re[0], point.im[0]);
  const quadrics = new LegQuadrics();
  const zeroLengths = complexArray(PARAMETER_COUNT);
  for (let i = 0; i < PARAMETER_COUNT; i++) {
    if (i % PARAMETERS_PER_LEG === 6) continue;
    zeroLengths.re[i] = parameters.re[i];
    zeroLengths.im[i] = parameters.im[i];
  }
  quadrics.setPath(zeroLengths, zeroLengths);
  quadrics.moveTo(0, 0, 1, 0);
  const half = complexArray(UNKNOWNS);
  quadrics.writeResidual(point, half);
  let eRe = 0;
  let eIm = 0;
  for (let j = 0; j < 4; j++) {
    eRe += point.re[j] ** 2 - point.im[j] ** 2;
    eIm += 2 * point.re[j] * point.im[j];
  }
  for (let leg = 0; leg < 6; leg++) {
    const s = PARAMETERS_PER_LEG * leg + 6;
    [parameters.re[s], parameters.im[s]] = divide(2 * half.re[leg], 2 * half.im[leg], eRe, eIm);
  }
  return { parameters, point };
}

const divide = (ar: number, ai: number, br: number, bi: number): [number, number] => {
  const size = br * br + bi * bi;
  return [(ar * br + ai * bi) / size, (ai * br - ar * bi) / size];
};

/** Sine of the angle between two complex lines. */
function distance(a: ComplexArray, b: ComplexArray): number {
  let re = 0;
  let im = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    re += a.re[j] * b.re[j] + a.im[j] * b.im[j];
    im += a.re[j] * b.im[j] - a.im[j] * b.re[j];
  }
  return Math.sqrt(Math.max(0, 1 - re * re - im * im));
}

function goRound(point: ComplexArray, corners: readonly ComplexArray[]): ComplexArray | undefined {
  const quadrics = new LegQuadrics();
  const tracker = new PathTracker(quadrics);
  let from = point;
  for (let i = 0; i < corners.length; i++) {
    quadrics.setPath(corners[i], corners[(i + 1) % corners.length]);
    tracker.start(from, 0, 0, 0);
    if (tracker.trackTo(1, 0, CARE) !== 'arrived') return undefined;
    tracker.polish();
    from = { re: tracker.x.re.slice(0, UNKNOWNS), im: tracker.x.im.slice(0, UNKNOWNS) };
  }
  return from;
}

export function findSolutions(seed: number): { parameters: ComplexArray; solutions: ComplexArray[] } {
  const random = seededRandom(seed);
  const { parameters, point } = drawStart(random);
  const settled = goRound(point, [parameters]);
  if (!settled) throw new Error('the drawn start is not regular');
  const solutions: ComplexArray[] = [settled];
  for (let loop = 0; solutions.length < SOLUTIONS && loop < 200; loop++) {
    const corners = [parameters, complexArray(PARAMETER_COUNT), complexArray(PARAMETER_COUNT)];
    fill(corners[1], random, 1);
    fill(corners[2], random, 1);
    for (const solution of [...solutions]) {
      const end = goRound(solution, corners);
      if (end && solutions.every((known) => distance(known, end) > SAME)) solutions.push(end);
    }
    console.error(`loop ${loop + 1}: ${solutions.length} solutions`);
  }
  return { parameters, solutions };
}

const seed = Number(process.argv[2] ?? 20);
const { parameters, solutions } = findSolutions(seed);
if (solutions.length !== SOLUTIONS) throw new Error(`found ${solutions.length} solutions, expected ${SOLUTIONS}`);
let closest = 1;
solutions.forEach((a, i) => {
  for (const b of solutions.slice(0, i)) closest = Math.min(closest, distance(a, b));
});
console.error(`closest pair: ${closest}`);
/** Numbers in lines as the formatter would break them. */
function table(values: Iterable<number>): string {
  const lines: string[] = [];
  let line = '';
  for (const value of values) {
    const next = line === '' ? `    ${value},` : `${line} ${value},`;
    if (next.length > 120) lines.push(line);
    line = next.length > 120 ? `    ${value},` : next;
  }
  return [...lines, line].join('\n');
}
const flat = (part: 're' | 'im'): string => table(solutions.flatMap((solution) => Array.from(solution[part])));
writeFileSync(
  new URL('../../src/kinematics/forward/start-system.ts', import.meta.url),
  `// Generated by tests/bench/generate-forward-start.ts with seed ${seed}; do not edit by hand.
import type { ComplexArray } from './leg-quadrics.ts';

/** Solutions of a general parameter set. */
export const SOLUTION_COUNT = ${SOLUTIONS};

/** A random complex parameter set of the leg quadrics (d, m, s leg by leg). */
export const START_PARAMETERS: ComplexArray = {
  re: Float64Array.from([
${table(parameters.re)}
  ]),
  im: Float64Array.from([
${table(parameters.im)}
  ]),
};

/** Its 40 solutions (e, h), eight numbers each, of unit length; found by monodromy loops. */
export const START_SOLUTIONS: ComplexArray = {
  re: Float64Array.from([
${flat('re')}
  ]),
  im: Float64Array.from([
${flat('im')}
  ]),
};
`,
);
