import { type Mat3, multiply3, rotate } from '../math/rotation.ts';
import { add, at, cross, dot, length, put, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { intervalOf } from './intervals.ts';

/*
 * Between two given rotations R_i and R_i+1 the platform turns by exp of a rotation vector that is a cubic of time, `R = R_i exp(f)`,
 * with f(0) = 0. Its rate in the platform's axes is `w = A(f) f'`, `A = I - p [f] + q [f]^2`, with p = (1 - cos s)/s^2,
 * q = (s - sin s)/s^3, s = |f|. Rates at the given rotations are chosen so that the angular acceleration has no jump: a
 * block tridiagonal system whose small non-linear part is found by going round. (Cubic splines as in any textbook, carried
 * over to rotation vectors; derived. Checked against a general-purpose library's rotation spline.)
 */

/** Below this angle [rad] series take the place of quotients whose parts cancel; their next terms are below 1e-17. */
const SMALL_ANGLE = 1e-3;

/** (1 - cos s)/s^2 and (s - sin s)/s^3 with their derivatives by s, divided by s. */
function coefficients(s: number): readonly [p: number, q: number, dp: number, dq: number] {
  const s2 = s * s;
  if (s < SMALL_ANGLE) return [0.5 - s2 / 24, 1 / 6 - s2 / 120, -1 / 12 + s2 / 180, -1 / 60 + s2 / 1260];
  const [sine, cosine] = [Math.sin(s), Math.cos(s)];
  const p = (1 - cosine) / s2;
  const q = (s - sine) / (s2 * s);
  return [p, q, (sine / s - 2 * p) / s2, (p - 3 * q) / s2];
}

/** A(f) v: rate in the turned axes for a rotation vector that changes by v. */
function forward(f: Vec3, v: Vec3): Vec3 {
  const [p, q] = coefficients(length(f));
  const fv = cross(f, v);
  return add(subtract(v, scale(fv, p)), scale(cross(f, fv), q));
}

/** A(f)^-1 w. */
function backward(f: Vec3, w: Vec3): Vec3 {
  const s = length(f);
  const fw = cross(f, w);
  // 1/s^2 - (1 + cos s)/(2 s sin s), which tends to 1/12; the second form is the same without a pole at pi
  const r = s < SMALL_ANGLE ? 1 / 12 + (s * s) / 720 : 1 / (s * s) - 1 / (2 * s * Math.tan(s / 2));
  return add(add(w, scale(fw, 0.5)), scale(cross(f, fw), r));
}

/** The part of the angular acceleration that comes from A changing: dA/dt v, with f changing by v. */
function bent(f: Vec3, v: Vec3): Vec3 {
  const [, q, dp, dq] = coefficients(length(f));
  const along = dot(f, v);
  const fv = cross(f, v);
  return add(add(scale(fv, -dp * along), scale(cross(f, fv), dq * along)), scale(cross(v, fv), q));
}

/** Rotation vector of R, its angle at most pi [rad]. */
export function rotationVector(R: Mat3): Vec3 {
  const half: Vec3 = [(R[7] - R[5]) / 2, (R[2] - R[6]) / 2, (R[3] - R[1]) / 2];
  const sine = length(half);
  const cosine = (R[0] + R[4] + R[8] - 1) / 2;
  const angle = Math.atan2(sine, cosine);
  if (cosine > 0) return scale(half, sine < 1e-8 ? 1 : angle / sine);
  // near half a turn the axis is read from the symmetric part, which then is large: R + R^T = 2 cos I + 2 (1 - cos) n n^T
  const rest = 1 - cosine;
  const diagonal = [R[0], R[4], R[8]].map((entry) => Math.sqrt(Math.max(0, (entry - cosine) / rest)));
  const largest = diagonal.indexOf(Math.max(...diagonal));
  const n: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < 3; k++)
    n[k] = k === largest ? diagonal[k] : (R[3 * largest + k] + R[3 * k + largest]) / (2 * rest * diagonal[largest]);
  const sign = dot(n, half) < 0 ? -1 : 1;
  return scale(n, (sign * angle) / length(n));
}

/** exp of a rotation vector [rad]. */
export function rotationOf(f: Vec3): Mat3 {
  const s = length(f);
  const [p, q] = coefficients(s);
  const a = 1 - q * s * s;
  const c = 1 - p * s * s;
  const [x, y, z] = f;
  return Float64Array.of(
    c + p * x * x,
    p * x * y - a * z,
    p * x * z + a * y,
    p * x * y + a * z,
    c + p * y * y,
    p * y * z - a * x,
    p * x * z - a * y,
    p * y * z + a * x,
    c + p * z * z,
  );
}

/** Rates at both ends, in the turned axes [rad/s]. */
export interface EndRates {
  readonly first: Vec3;
  readonly last: Vec3;
}

/** Rounds of the non-linear part end when no rate changes by more than this share of the fastest: rounding, with room. */
const SETTLED = 1e-13;

/** The non-linear part shrinks by an order and more a round while neighbours are less than a radian apart. */
const MOST_ROUNDS = 60;

/** A turn through given rotations at given times, with continuous rate and angular acceleration. */
export class RotationSpline {
  private readonly times: Float64Array;
  private readonly rotations: readonly Mat3[];
  /** Rotation vectors of the intervals and rates at the knots, flat. */
  private readonly vectors: Float64Array;
  private readonly rates: Float64Array;

  /**
   * @param times increasing, at least two [s]
   * @param rotations as many, each less than half a turn from the one before
   * @param ends rates at both ends; left out: those of the cubic through the four rotations next to each end
   */
  constructor(times: ArrayLike<number>, rotations: readonly Mat3[], ends?: EndRates) {
    const count = rotations.length;
    this.times = Float64Array.from(times);
    this.rotations = rotations;
    this.vectors = new Float64Array(3 * (count - 1));
    for (let n = 0; n < count - 1; n++)
      put(this.vectors, n, rotationVector(turnBetween(rotations[n], rotations[n + 1])));
    this.rates = this.solveRates(ends ?? { first: this.endRate(0, 1), last: this.endRate(count - 1, -1) });
  }

  /** Rate at an end: of the polynomial through the rotation vectors from there to the three nearest rotations. */
  private endRate(end: number, step: 1 | -1): Vec3 {
    const count = Math.min(4, this.rotations.length);
    let sum: Vec3 = [0, 0, 0];
    const own = this.times[end];
    for (let n = 1; n < count; n++) {
      const index = end + step * n;
      // derivative at `own` of the Lagrange polynomial that is 1 at `index` and 0 at the others, `own` among them
      let weight = 1 / (this.times[index] - own);
      for (let other = 1; other < count; other++) {
        if (other === n) continue;
        const t = this.times[end + step * other];
        weight *= (own - t) / (this.times[index] - t);
      }
      sum = add(sum, scale(rotationVector(turnBetween(this.rotations[end], this.rotations[index])), weight));
    }
    return sum;
  }

  private solveRates({ first, last }: EndRates): Float64Array {
    const { vectors, times } = this;
    const count = this.rotations.length;
    const rates = new Float64Array(3 * count);
    for (let n = 1; n < count - 1; n++) {
      const h = times[n + 1] - times[n];
      put(rates, n, scale(at(vectors, n), 1 / h));
    }
    put(rates, 0, first);
    put(rates, count - 1, last);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      // Gauss and Seidel: the diagonal outweighs both neighbours by two to one
      let change = 0;
      let fastest = 0;
      for (let n = 1; n < count - 1; n++) {
        const before = times[n] - times[n - 1];
        const after = times[n + 1] - times[n];
        const f = at(vectors, n - 1);
        const g = at(vectors, n);
        const now = at(rates, n);
        let sum = add(scale(f, 6 / before ** 2), scale(g, 6 / after ** 2));
        sum = subtract(sum, scale(forward(f, at(rates, n - 1)), 2 / before));
        sum = subtract(sum, scale(backward(g, at(rates, n + 1)), 2 / after));
        sum = subtract(sum, bent(f, backward(f, now)));
        const next = scale(sum, 1 / (4 / before + 4 / after));
        change = Math.max(change, length(subtract(next, now)));
        fastest = Math.max(fastest, length(next));
        put(rates, n, next);
      }
      if (!(change > SETTLED * fastest)) break;
    }
    return rates;
  }

  /**
   * Writes rotation (flat 9), rate and angular acceleration, base axes [rad/s, rad/s^2], at a time within the given ones.
   */
  write(time: number, R: Mat3, rate: Float64Array, acceleration: Float64Array): void {
    const n = intervalOf(this.times, time);
    const h = this.times[n + 1] - this.times[n];
    const x = (time - this.times[n]) / h;
    const f = at(this.vectors, n);
    const start = scale(at(this.rates, n), h);
    const end = scale(backward(f, at(this.rates, n + 1)), h);
    // cubic with f(0) = 0, f(1), and both slopes
    const c3 = add(add(start, end), scale(f, -2));
    const c2 = subtract(scale(f, 3), add(scale(start, 2), end));
    const value = scale(add(start, scale(add(c2, scale(c3, x)), x)), x);
    const slope = scale(add(start, scale(add(scale(c2, 2), scale(c3, 3 * x)), x)), 1 / h);
    const curve = scale(add(scale(c2, 2), scale(c3, 6 * x)), 1 / (h * h));
    R.set(multiply3(this.rotations[n], rotationOf(value)));
    rate.set(rotate(R, forward(value, slope)));
    acceleration.set(rotate(R, add(forward(value, curve), bent(value, slope))));
  }
}

/** R_from^T R_to: the turn from one to the other in the turned axes. */
function turnBetween(from: Mat3, to: Mat3): Mat3 {
  const transposed = Float64Array.of(from[0], from[3], from[6], from[1], from[4], from[7], from[2], from[5], from[8]);
  return multiply3(transposed, to);
}
