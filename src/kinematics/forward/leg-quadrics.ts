import type { ComplexLu } from '../../math/complex-linear.ts';
import { LEG_COUNT } from '../layout.ts';

/**
 * The six leg lengths as quadrics in eight homogeneous unknowns, over the complex numbers.
 *
 * Unknowns x = (e, h): quaternion e of the rotation, of any length and in order w, x, y, z, and h = t e, the quaternion
 * product of the translation t = p_BoPo and e. With base joint a, platform joint b and length l, |e| |leg vector| = |w|:
 *
 *     w = h + e b - a e,       <w, w> = l^2 <e, e>      (one per leg)
 *     <e, h> = 0                                         (t has no scalar part)
 *
 * where <,> is the sum of products without conjugation. e b - a e = S e with S skew, its entries taken from b - a and
 * b + a. So each leg has seven parameters: d = b - a, m = b + a, s = l^2. They move along a path that is quadratic in
 * one complex number tau. For general parameters exactly 40 solutions have <e, e> != 0 (F. Ronga and T. Vust 1992,
 * D. Lazard 1993: from memory); those with <e, e> = 0 are no poses.
 * (Study's coordinates with this linear form of a leg follow M. Husty, Mech. Mach. Theory 31, 1996: from memory.)
 */
export const UNKNOWNS = 8;
export const PARAMETERS_PER_LEG = 7;
export const PARAMETER_COUNT = LEG_COUNT * PARAMETERS_PER_LEG;

/** Complex numbers as two real arrays of one length. */
export interface ComplexArray {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const complexArray = (length: number): ComplexArray => ({
  re: new Float64Array(length),
  im: new Float64Array(length),
});

/** Highest power of the path step in a solution's local power series. */
export const SERIES_ORDER = 5;

const WIDTH = 4 * LEG_COUNT;

export class LegQuadrics {
  /** Parameters are c0 + tau c1 + tau^2 c2. */
  readonly c0 = complexArray(PARAMETER_COUNT);
  readonly c1 = complexArray(PARAMETER_COUNT);
  readonly c2 = complexArray(PARAMETER_COUNT);
  /** The same expanded about the present tau, in a real step along the present direction: p0 + step p1 + step^2 p2. */
  private readonly p0 = complexArray(PARAMETER_COUNT);
  private readonly p1 = complexArray(PARAMETER_COUNT);
  private readonly p2 = complexArray(PARAMETER_COUNT);
  /** Power series of the six w. */
  private readonly w = complexArray(WIDTH * (SERIES_ORDER + 1));
  /** Power series of <e, e>. */
  private readonly ee = complexArray(SERIES_ORDER + 1);
  private readonly part = complexArray(4);

  /** Path from `start` (tau = 0) to `end` (tau = 1), bent by `bend` tau (1 - tau) when one is given. */
  setPath(start: ComplexArray, end: ComplexArray, bend?: ComplexArray): void {
    setPathPart(start.re, end.re, bend?.re, this.c0.re, this.c1.re, this.c2.re);
    setPathPart(start.im, end.im, bend?.im, this.c0.im, this.c1.im, this.c2.im);
  }

  /** Takes the parameters at tau; series steps then run along the complex unit direction u. */
  moveTo(tauRe: number, tauIm: number, uRe: number, uIm: number): void {
    const { c0, c1, c2, p0, p1, p2 } = this;
    const u2Re = uRe * uRe - uIm * uIm;
    const u2Im = 2 * uRe * uIm;
    for (let i = 0; i < PARAMETER_COUNT; i++) {
      const bRe = c2.re[i];
      const bIm = c2.im[i];
      // tau c2, then c1 + tau c2 for the value and c1 + 2 tau c2 for the slope
      const tRe = tauRe * bRe - tauIm * bIm;
      const tIm = tauRe * bIm + tauIm * bRe;
      const vRe = c1.re[i] + tRe;
      const vIm = c1.im[i] + tIm;
      const sRe = vRe + tRe;
      const sIm = vIm + tIm;
      p0.re[i] = c0.re[i] + tauRe * vRe - tauIm * vIm;
      p0.im[i] = c0.im[i] + tauRe * vIm + tauIm * vRe;
      p1.re[i] = uRe * sRe - uIm * sIm;
      p1.im[i] = uRe * sIm + uIm * sRe;
      p2.re[i] = u2Re * bRe - u2Im * bIm;
      p2.im[i] = u2Re * bIm + u2Im * bRe;
    }
  }

  /**
   * Half the residuals of the seven quadrics at x, into `out[0..6]`; also keeps w for {@link writeJacobian} and the series.
   * @param x power series storage; its first eight numbers are the point
   */
  writeResidual(x: ComplexArray, out: ComplexArray): void {
    const { w, ee, p0 } = this;
    sumOfProducts(x, 0, x, 0, ee, 0);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const at = 4 * leg;
      for (let j = 0; j < 4; j++) {
        w.re[at + j] = x.re[4 + j];
        w.im[at + j] = x.im[4 + j];
      }
      addSkew(p0, PARAMETERS_PER_LEG * leg, x, 0, w, at);
      sumOfProducts(w, at, w, at, out, leg);
      const s = PARAMETERS_PER_LEG * leg + 6;
      out.re[leg] = 0.5 * (out.re[leg] - p0.re[s] * ee.re[0] + p0.im[s] * ee.im[0]);
      out.im[leg] = 0.5 * (out.im[leg] - p0.re[s] * ee.im[0] - p0.im[s] * ee.re[0]);
    }
    sumOfProducts(x, 0, x, 4, out, LEG_COUNT);
  }

  /** Half the derivatives of the seven quadrics by x at the point of the last {@link writeResidual}: rows 0 to 6. */
  writeJacobian(x: ComplexArray, lu: ComplexLu): void {
    const { w, p0, part } = this;
    const { re, im } = lu;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const row = UNKNOWNS * leg;
      const at = 4 * leg;
      const s = PARAMETERS_PER_LEG * leg + 6;
      part.re.fill(0);
      part.im.fill(0);
      addSkew(p0, PARAMETERS_PER_LEG * leg, w, at, part, 0);
      for (let j = 0; j < 4; j++) {
        // d/de = -S w - s e (S is skew), d/dh = w
        re[row + j] = -part.re[j] - p0.re[s] * x.re[j] + p0.im[s] * x.im[j];
        im[row + j] = -part.im[j] - p0.re[s] * x.im[j] - p0.im[s] * x.re[j];
        re[row + 4 + j] = w.re[at + j];
        im[row + 4 + j] = w.im[at + j];
      }
    }
    const row = UNKNOWNS * LEG_COUNT;
    for (let j = 0; j < 4; j++) {
      re[row + j] = x.re[4 + j];
      im[row + j] = x.im[4 + j];
      re[row + 4 + j] = x.re[j];
      im[row + 4 + j] = x.im[j];
    }
  }

  /**
   * Minus what the coefficients of order below k contribute to half the residuals' coefficient of order k, into
   * `out[0..6]`: the right-hand side whose solution by the Jacobian is the k-th coefficient of x.
   */
  writeSeriesRight(x: ComplexArray, k: number, out: ComplexArray): void {
    const { w, p1, p2 } = this;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const parameters = PARAMETERS_PER_LEG * leg;
      const at = WIDTH * k + 4 * leg;
      // what is known of w_k: S1 e_(k-1) + S2 e_(k-2)
      w.re.fill(0, at, at + 4);
      w.im.fill(0, at, at + 4);
      addSkew(p1, parameters, x, UNKNOWNS * (k - 1), w, at);
      if (k > 1) addSkew(p2, parameters, x, UNKNOWNS * (k - 2), w, at);
      this.addKnownSquares(leg, k, x, out);
    }
    let re = 0;
    let im = 0;
    for (let j = 1; j < k; j++) {
      sumOfProducts(x, UNKNOWNS * j, x, UNKNOWNS * (k - j) + 4, this.part, 0);
      re -= this.part.re[0];
      im -= this.part.im[0];
    }
    out.re[LEG_COUNT] = re;
    out.im[LEG_COUNT] = im;
  }

  /** Completes w_k and <e, e>_k once the k-th coefficient of x is known. */
  finishSeriesOrder(x: ComplexArray, k: number): void {
    const { w, p0, ee, part } = this;
    const from = UNKNOWNS * k;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const at = WIDTH * k + 4 * leg;
      for (let j = 0; j < 4; j++) {
        w.re[at + j] += x.re[from + 4 + j];
        w.im[at + j] += x.im[from + 4 + j];
      }
      addSkew(p0, PARAMETERS_PER_LEG * leg, x, from, w, at);
    }
    ee.re[k] = 0;
    ee.im[k] = 0;
    for (let j = 0; j <= k; j++) {
      sumOfProducts(x, UNKNOWNS * j, x, UNKNOWNS * (k - j), part, 0);
      ee.re[k] += part.re[0];
      ee.im[k] += part.im[0];
    }
  }

  private addKnownSquares(leg: number, k: number, x: ComplexArray, out: ComplexArray): void {
    const { w, p0, p1, p2, ee, part } = this;
    const s = PARAMETERS_PER_LEG * leg + 6;
    const at = 4 * leg;
    let re = 0;
    let im = 0;
    let eRe = 0;
    let eIm = 0;
    for (let j = 1; j < k; j++) {
      sumOfProducts(w, WIDTH * j + at, w, WIDTH * (k - j) + at, part, 0);
      re += part.re[0];
      im += part.im[0];
      sumOfProducts(x, UNKNOWNS * j, x, UNKNOWNS * (k - j), part, 0);
      eRe += part.re[0];
      eIm += part.im[0];
    }
    sumOfProducts(w, at, w, WIDTH * k + at, part, 0);
    re += 2 * part.re[0] - p0.re[s] * eRe + p0.im[s] * eIm - p1.re[s] * ee.re[k - 1] + p1.im[s] * ee.im[k - 1];
    im += 2 * part.im[0] - p0.re[s] * eIm - p0.im[s] * eRe - p1.re[s] * ee.im[k - 1] - p1.im[s] * ee.re[k - 1];
    if (k > 1) {
      re += -p2.re[s] * ee.re[k - 2] + p2.im[s] * ee.im[k - 2];
      im += -p2.re[s] * ee.im[k - 2] - p2.im[s] * ee.re[k - 2];
    }
    out.re[leg] = -0.5 * re;
    out.im[leg] = -0.5 * im;
  }
}

function setPathPart(
  start: Float64Array,
  end: Float64Array,
  bend: Float64Array | undefined,
  c0: Float64Array,
  c1: Float64Array,
  c2: Float64Array,
): void {
  for (let i = 0; i < PARAMETER_COUNT; i++) {
    const sideways = bend ? bend[i] : 0;
    c0[i] = start[i];
    c1[i] = end[i] - start[i] + sideways;
    c2[i] = -sideways;
  }
}

/** out[to] = sum over four of a b, without conjugation. */
function sumOfProducts(a: ComplexArray, i: number, b: ComplexArray, j: number, out: ComplexArray, to: number): void {
  const ar = a.re;
  const ai = a.im;
  const br = b.re;
  const bi = b.im;
  out.re[to] =
    ar[i] * br[j] -
    ai[i] * bi[j] +
    ar[i + 1] * br[j + 1] -
    ai[i + 1] * bi[j + 1] +
    ar[i + 2] * br[j + 2] -
    ai[i + 2] * bi[j + 2] +
    ar[i + 3] * br[j + 3] -
    ai[i + 3] * bi[j + 3];
  out.im[to] =
    ar[i] * bi[j] +
    ai[i] * br[j] +
    ar[i + 1] * bi[j + 1] +
    ai[i + 1] * br[j + 1] +
    ar[i + 2] * bi[j + 2] +
    ai[i + 2] * br[j + 2] +
    ar[i + 3] * bi[j + 3] +
    ai[i + 3] * br[j + 3];
}

/** y += S v, with S v = (-d.v, d v0 + v x m) for the d and m that start at `at` in p. */
function addSkew(p: ComplexArray, at: number, v: ComplexArray, from: number, y: ComplexArray, to: number): void {
  const { re, im } = p;
  const d0 = re[at];
  const d1 = re[at + 1];
  const d2 = re[at + 2];
  const m0 = re[at + 3];
  const m1 = re[at + 4];
  const m2 = re[at + 5];
  const i0 = im[at];
  const i1 = im[at + 1];
  const i2 = im[at + 2];
  const n0 = im[at + 3];
  const n1 = im[at + 4];
  const n2 = im[at + 5];
  const v0 = v.re[from];
  const v1 = v.re[from + 1];
  const v2 = v.re[from + 2];
  const v3 = v.re[from + 3];
  const u0 = v.im[from];
  const u1 = v.im[from + 1];
  const u2 = v.im[from + 2];
  const u3 = v.im[from + 3];
  y.re[to] -= d0 * v1 - i0 * u1 + d1 * v2 - i1 * u2 + d2 * v3 - i2 * u3;
  y.im[to] -= d0 * u1 + i0 * v1 + d1 * u2 + i1 * v2 + d2 * u3 + i2 * v3;
  y.re[to + 1] += d0 * v0 - i0 * u0 + m2 * v2 - n2 * u2 - m1 * v3 + n1 * u3;
  y.im[to + 1] += d0 * u0 + i0 * v0 + m2 * u2 + n2 * v2 - m1 * u3 - n1 * v3;
  y.re[to + 2] += d1 * v0 - i1 * u0 - m2 * v1 + n2 * u1 + m0 * v3 - n0 * u3;
  y.im[to + 2] += d1 * u0 + i1 * v0 - m2 * u1 - n2 * v1 + m0 * u3 + n0 * v3;
  y.re[to + 3] += d2 * v0 - i2 * u0 + m1 * v1 - n1 * u1 - m0 * v2 + n0 * u2;
  y.im[to + 3] += d2 * u0 + i2 * v0 + m1 * u1 + n1 * v1 - m0 * u2 - n0 * v2;
}
