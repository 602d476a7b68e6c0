import { ComplexLu } from '../../math/complex-linear.ts';
import { type ComplexArray, complexArray, type LegQuadrics, SERIES_ORDER, UNKNOWNS } from './leg-quadrics.ts';

/** How a stretch of path ended: at its far end, or before it because steps became too short to be worth anything. */
export type TrackOutcome = 'arrived' | 'stalled';

/** How cautiously to step. All sizes are relative to the unit length of x. */
export interface TrackCare {
  /** Largest expected error of a prediction. */
  readonly predictionError: number;
  /** Steps on one path before it is given up. */
  readonly stepLimit: number;
}

/** Newton is done when its last step is below this; the next one would be its square, that is rounding. */
const CORRECTED = 1e-7;
/** A correction must shrink by this factor per Newton step, else the prediction was too far off its path. */
const CONTRACTION = 0.05;
const NEWTON_STEPS = 3;
/** Share of the estimated radius of convergence of the local power series that one step may use. */
const RADIUS_SHARE = 0.6;
/** Shortest step, relative to the path's whole length of 1: some thousand rounding errors of tau. */
const SHORTEST_STEP = 1e-13;
/** The affine patch is laid anew when x has grown this much on the old one. */
const PATCH_GROWTH = 2;

/**
 * Follows one solution of a {@link LegQuadrics} along a straight stretch of the complex path parameter tau.
 *
 * Predictor: the solution's own power series to order {@link SERIES_ORDER}, which also bounds the step (its last two
 * coefficients estimate the radius of convergence). Corrector: Newton, at most three steps, with a contraction test that
 * keeps a path from slipping onto a neighbour. x lives on the affine patch <conj(reference), x> = 1.
 */
export class PathTracker {
  /** The point x = (e, h), the first eight entries; the rest are its series coefficients. */
  readonly x = complexArray(UNKNOWNS * (SERIES_ORDER + 1));
  tauRe = 0;
  tauIm = 0;
  /** Steps taken since {@link start}. */
  steps = 0;

  private readonly quadrics: LegQuadrics;
  private readonly lu = new ComplexLu(UNKNOWNS);
  private readonly reference = complexArray(UNKNOWNS);
  private readonly right = complexArray(UNKNOWNS);
  private readonly saved = complexArray(UNKNOWNS);

  constructor(quadrics: LegQuadrics) {
    this.quadrics = quadrics;
  }

  /** Puts the tracker on a solution at tau. */
  start(point: ComplexArray, offset: number, tauRe: number, tauIm: number): void {
    for (let j = 0; j < UNKNOWNS; j++) {
      this.x.re[j] = point.re[offset + j];
      this.x.im[j] = point.im[offset + j];
    }
    this.tauRe = tauRe;
    this.tauIm = tauIm;
    this.steps = 0;
    this.layPatch();
  }

  /** Follows the solution along the straight line from the present tau to the given one. */
  trackTo(endRe: number, endIm: number, care: TrackCare): TrackOutcome {
    const { quadrics } = this;
    const distance = Math.hypot(endRe - this.tauRe, endIm - this.tauIm);
    if (distance === 0) return 'arrived';
    const startRe = this.tauRe;
    const startIm = this.tauIm;
    const uRe = (endRe - startRe) / distance;
    const uIm = (endIm - startIm) / distance;
    let done = 0;
    quadrics.moveTo(startRe, startIm, uRe, uIm);
    if (!this.linearise()) return 'stalled';
    for (;;) {
      let step = Math.min(this.writeSeries(care.predictionError), distance - done);
      this.savePoint();
      for (;;) {
        if (step < SHORTEST_STEP && step < distance - done) return this.restorePoint();
        if (++this.steps > care.stepLimit) return this.restorePoint();
        const last = step >= distance - done;
        const next = last ? distance : done + step;
        this.tauRe = last ? endRe : startRe + next * uRe;
        this.tauIm = last ? endIm : startIm + next * uIm;
        this.predict(next - done);
        quadrics.moveTo(this.tauRe, this.tauIm, uRe, uIm);
        if (this.correct()) {
          done = next;
          break;
        }
        step /= 2;
        this.tauRe = startRe + done * uRe;
        this.tauIm = startIm + done * uIm;
      }
      if (done >= distance) return 'arrived';
      if (this.size() > PATCH_GROWTH) this.layPatch();
      if (!this.linearise()) return 'stalled';
    }
  }

  /**
   * Repeats Newton at the present parameters until it no longer improves.
   * @returns size of the last correction relative to |x|, the honest accuracy of x; Infinity when the Jacobian is singular
   */
  polish(): number {
    this.layPatch();
    this.quadrics.moveTo(this.tauRe, this.tauIm, 1, 0);
    let last = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 6; i++) {
      if (!this.linearise()) return Number.POSITIVE_INFINITY;
      const size = this.newtonStep();
      if (!(size < last)) return Math.max(size, last);
      last = size;
    }
    return last;
  }

  /** A lower estimate of the norm of the inverse Jacobian at x, from one fixed right-hand side: how ill-posed x is. */
  inverseNorm(): number {
    if (!this.linearise()) return Number.POSITIVE_INFINITY;
    const { right, lu } = this;
    for (let j = 0; j < UNKNOWNS; j++) {
      right.re[j] = Math.cos(1 + 2 * j) / Math.sqrt(UNKNOWNS);
      right.im[j] = Math.sin(1 + 2 * j) / Math.sqrt(UNKNOWNS);
    }
    right.re[UNKNOWNS - 1] = 0;
    right.im[UNKNOWNS - 1] = 0;
    lu.solve(right.re, right.im);
    return norm(right, 0);
  }

  private size(): number {
    return norm(this.x, 0);
  }

  /** Scales x to unit length and puts the patch square to it. */
  private layPatch(): void {
    const { x, reference } = this;
    const inverse = 1 / this.size();
    for (let j = 0; j < UNKNOWNS; j++) {
      x.re[j] *= inverse;
      x.im[j] *= inverse;
      reference.re[j] = x.re[j];
      reference.im[j] = -x.im[j];
    }
  }

  /** Factors the Jacobian at x, and leaves minus the residual in `right`. */
  private linearise(): boolean {
    const { quadrics, x, lu, right, reference } = this;
    quadrics.writeResidual(x, right);
    quadrics.writeJacobian(x, lu);
    const row = UNKNOWNS * (UNKNOWNS - 1);
    for (let j = 0; j < UNKNOWNS; j++) {
      lu.re[row + j] = reference.re[j];
      lu.im[row + j] = reference.im[j];
    }
    right.re[UNKNOWNS - 1] = 0;
    right.im[UNKNOWNS - 1] = 0;
    for (let j = 0; j < UNKNOWNS - 1; j++) {
      right.re[j] = -right.re[j];
      right.im[j] = -right.im[j];
    }
    return lu.factor();
  }

  /** Adds the solution of the linearised equations to x; returns its size relative to |x|. */
  private newtonStep(): number {
    const { lu, right, x } = this;
    lu.solve(right.re, right.im);
    for (let j = 0; j < UNKNOWNS; j++) {
      x.re[j] += right.re[j];
      x.im[j] += right.im[j];
    }
    return norm(right, 0) / this.size();
  }

  /** Newton from the prediction; false when it does not contract the way it does near a solution. */
  private correct(): boolean {
    let previous = 1;
    for (let i = 0; i < NEWTON_STEPS; i++) {
      if (!this.linearise()) return false;
      const size = this.newtonStep();
      if (!(size <= CONTRACTION * previous)) return size < CORRECTED && i > 0;
      if (size < CORRECTED) return true;
      previous = size;
    }
    return false;
  }

  /** Series coefficients of x along the path by the factors in hand; returns the step they allow. */
  private writeSeries(predictionError: number): number {
    const { quadrics, x, lu, right } = this;
    for (let k = 1; k <= SERIES_ORDER; k++) {
      quadrics.writeSeriesRight(x, k, right);
      right.re[UNKNOWNS - 1] = 0;
      right.im[UNKNOWNS - 1] = 0;
      lu.solve(right.re, right.im);
      for (let j = 0; j < UNKNOWNS; j++) {
        x.re[UNKNOWNS * k + j] = right.re[j];
        x.im[UNKNOWNS * k + j] = right.im[j];
      }
      if (k < SERIES_ORDER) quadrics.finishSeriesOrder(x, k);
    }
    const last = norm(x, UNKNOWNS * SERIES_ORDER);
    const before = norm(x, UNKNOWNS * (SERIES_ORDER - 1));
    if (!(last > 0)) return Number.POSITIVE_INFINITY;
    // next coefficient guessed as last^2 / before; its term is the error of the prediction
    const byError = ((predictionError * before) / (last * last)) ** (1 / (SERIES_ORDER + 1));
    return Math.min(byError, (RADIUS_SHARE * before) / last);
  }

  /** x at a step along its series (Horner). */
  private predict(step: number): void {
    const { x, saved } = this;
    for (let j = 0; j < UNKNOWNS; j++) {
      let re = 0;
      let im = 0;
      for (let k = SERIES_ORDER; k > 0; k--) {
        re = (re + x.re[UNKNOWNS * k + j]) * step;
        im = (im + x.im[UNKNOWNS * k + j]) * step;
      }
      x.re[j] = saved.re[j] + re;
      x.im[j] = saved.im[j] + im;
    }
  }

  private savePoint(): void {
    for (let j = 0; j < UNKNOWNS; j++) {
      this.saved.re[j] = this.x.re[j];
      this.saved.im[j] = this.x.im[j];
    }
  }

  private restorePoint(): 'stalled' {
    for (let j = 0; j < UNKNOWNS; j++) {
      this.x.re[j] = this.saved.re[j];
      this.x.im[j] = this.saved.im[j];
    }
    return 'stalled';
  }
}

function norm(a: ComplexArray, offset: number): number {
  let sum = 0;
  for (let j = offset; j < offset + UNKNOWNS; j++) sum += a.re[j] * a.re[j] + a.im[j] * a.im[j];
  return Math.sqrt(sum);
}
