import { svd } from '../../math/svd.ts';
import { LEG_COUNT } from '../layout.ts';
import { FREEDOMS, type LegEquations } from './leg-equations.ts';
import { type ComplexArray, UNKNOWNS } from './leg-quadrics.ts';

/** A point (e, h) turned as near to the real numbers as its free complex factor allows. */
export interface RealCandidate {
  readonly position: Float64Array;
  readonly quaternion: Float64Array;
  /** Size of what stays imaginary, relative to |x|. */
  readonly imaginary: number;
}

/**
 * x is a real point times a complex factor exactly when <e, e> has that factor's square as its phase.
 * t = h e* / <e, e>.
 */
export function realCandidate(x: ComplexArray): RealCandidate {
  let re = 0;
  let im = 0;
  for (let j = 0; j < 4; j++) {
    re += x.re[j] * x.re[j] - x.im[j] * x.im[j];
    im += 2 * x.re[j] * x.im[j];
  }
  const phase = Math.atan2(im, re) / 2;
  const c = Math.cos(phase);
  const s = Math.sin(phase);
  const real = new Float64Array(UNKNOWNS);
  let rest = 0;
  let whole = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    real[j] = x.re[j] * c + x.im[j] * s;
    rest += (x.im[j] * c - x.re[j] * s) ** 2;
    whole += x.re[j] ** 2 + x.im[j] ** 2;
  }
  const [w, e1, e2, e3, h0, h1, h2, h3] = real;
  const norm = w * w + e1 * e1 + e2 * e2 + e3 * e3;
  const position = Float64Array.of(
    (-h0 * e1 + h1 * w - h2 * e3 + h3 * e2) / norm,
    (-h0 * e2 + h1 * e3 + h2 * w - h3 * e1) / norm,
    (-h0 * e3 - h1 * e2 + h2 * e1 + h3 * w) / norm,
  );
  return { position, quaternion: real.subarray(0, 4), imaginary: Math.sqrt(rest / whole) };
}

/** What Newton in real numbers made of a candidate. */
export interface Refined {
  /** Largest |length error| / length. */
  readonly residual: number;
  /** How far the pose moved from the candidate: translation plus quaternion, normal layout. */
  readonly travel: number;
}

/** A simple pose takes two or three; beside a singular one the error shrinks by a quarter a step. */
const REFINEMENT_STEPS = 16;
/** Length errors at which another step would only move rounding about. */
const SETTLED = 4 * Number.EPSILON;
/** Directions that the legs resist less than this, relative to the stiffest, are left alone at a singular pose. */
const RESISTED = 1e-6;

/** Newton on the six lengths from where `equations` stands, which is moved. Directions without resistance are left alone. */
export function refinePose(equations: LegEquations, lengths: Float64Array): Refined {
  const position = equations.position.slice();
  const quaternion = equations.quaternion.slice();
  const missing = new Float64Array(LEG_COUNT);
  const best = { position, quaternion, size: Number.POSITIVE_INFINITY };
  for (let step = 0; step <= REFINEMENT_STEPS; step++) {
    equations.evaluate();
    const size = equations.writeMissing(lengths, missing);
    if (!(size < best.size)) break;
    best.position = equations.position.slice();
    best.quaternion = equations.quaternion.slice();
    best.size = size;
    if (size <= SETTLED) break;
    equations.advance(leastTwist(equations.J, missing), 1);
  }
  equations.place(best.position, best.quaternion);
  equations.evaluate();
  equations.writeMissing(lengths, missing);
  let residual = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) residual = Math.max(residual, Math.abs(missing[leg]) / lengths[leg]);
  return { residual, travel: poseDistance(best.position, best.quaternion, position, quaternion) };
}

/** The smallest twist that makes the length changes, by the directions the legs do resist. */
export function leastTwist(J: Float64Array, changes: Float64Array): Float64Array {
  const { U, V, values } = svd(J, FREEDOMS);
  const twist = new Float64Array(FREEDOMS);
  for (let k = 0; k < FREEDOMS; k++) {
    if (values[k] <= RESISTED * values[0]) continue;
    let part = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) part += U[leg * FREEDOMS + k] * changes[leg];
    for (let j = 0; j < FREEDOMS; j++) twist[j] += (part / values[k]) * V[j * FREEDOMS + k];
  }
  return twist;
}

/** Translation distance plus the distance of the unit quaternions, either sign. */
export function poseDistance(
  p: ArrayLike<number>,
  q: ArrayLike<number>,
  otherP: ArrayLike<number>,
  otherQ: ArrayLike<number>,
): number {
  const sizeQ = Math.hypot(q[0], q[1], q[2], q[3]);
  const sizeOther = Math.hypot(otherQ[0], otherQ[1], otherQ[2], otherQ[3]);
  let minus = 0;
  let plus = 0;
  for (let j = 0; j < 4; j++) {
    minus += (q[j] / sizeQ - otherQ[j] / sizeOther) ** 2;
    plus += (q[j] / sizeQ + otherQ[j] / sizeOther) ** 2;
  }
  return Math.hypot(p[0] - otherP[0], p[1] - otherP[1], p[2] - otherP[2]) + Math.sqrt(Math.min(minus, plus));
}
