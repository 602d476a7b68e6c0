import { type ComplexArray, complexArray, UNKNOWNS } from './leg-quadrics.ts';
import type { PathTracker, TrackCare } from './path-tracker.ts';

/**
 * Where a path ended.
 * - regular: at a simple solution, or one as good as simple; x and its accuracy are from Newton at the end itself
 * - singular: at a multiple or non-isolated solution; x is the mean over closed loops round the end
 * - diverged: at <e, e> = 0, which is no pose: the translation grows without bound or the rotation loses its meaning
 * - failed: not decided
 */
export interface PathEnd {
  readonly kind: 'regular' | 'singular' | 'diverged' | 'failed';
  /** (e, h) of unit length. */
  readonly x: ComplexArray;
  /** Expected error of x. */
  readonly accuracy: number;
}

/**
 * Newton that still moves by more than this at the end point sits on a multiple solution: there it stops at the square
 * root of rounding, 1e-8 and more. Simple ones as close to another as 3e-5 stop at 1e-12.
 */
const SIMPLE = 3e-9;
/** Newton at the end moves a tracked point by less than this; one thrown farther was not near a simple solution. */
const STAYED = 1e-4;
/** Newton's last move understates the error where rounding dominates; the inverse Jacobian times this bounds it. */
const ROUNDING = 16 * Number.EPSILON;
/** |<e, e>| of a real pose of a normal layout is at least this part of |x|^2, since its translation is at most 3. */
const LEAST_POSE_SHARE = 0.1;
/** A path this near tau = 1 whose |<e, e>| has fallen to this part of |x|^2 is on its way to <e, e> = 0. */
const NEARLY_THERE = 1e-3;
const VANISHING = 1e-7;
/** The same for the mean over loops, which is the end itself to about 1e-7. */
const VANISHED = 1e-3;

/** Radii of the loops round tau = 1, tried inwards until two agree. */
const LOOP_RADII = [3e-2, 3e-3, 3e-4, 3e-5, 3e-6] as const;
const LOOP_CORNERS = 12;
const MOST_TURNS = 12;
/** A loop is closed when it returns to its start to this much; branches at the radii used are 1e-3 or more apart. */
const CLOSED = 1e-8;
/** Means over two radii that differ by less are the end point; they agree to 1e-12 when nothing else is near. */
const AGREEMENT = 1e-7;

/** Follows start solution number `index` to tau = 1 and says what is there. */
export function followPath(tracker: PathTracker, starts: ComplexArray, index: number, care: TrackCare): PathEnd {
  tracker.start(starts, UNKNOWNS * index, 0, 0);
  const outcome = tracker.trackTo(1, 0, care);
  const leaves = leavesPoses(tracker);
  const reached = copyPoint(tracker.x);
  const regular = outcome === 'arrived' ? regularEnd(tracker) : undefined;
  if (regular && projectiveDistance(regular.x, reached) < STAYED) return regular;
  if (leaves) return end('diverged', reached, 1);
  tracker.start(starts, UNKNOWNS * index, 0, 0);
  const around = circleEnd(tracker, care);
  if (around.kind !== 'singular') return around;
  // the loops must not land on a simple solution: the first run would have come to it, so one of the two left its path
  tracker.start(around.x, 0, 1, 0);
  return regularEnd(tracker) ? end('failed', around.x, 1) : around;
}

/** The simple solution at tau = 1 that the tracker is at, or undefined when Newton does not settle as on a simple one. */
function regularEnd(tracker: PathTracker): PathEnd | undefined {
  const moved = tracker.polish();
  if (!(moved < SIMPLE)) return undefined;
  return end('regular', tracker.x, Math.max(moved, ROUNDING * (1 + tracker.inverseNorm())));
}

/**
 * True when a path that got this far cannot end at a pose. Near a singular end x goes with a root of the way left, the
 * fourth at worst in practice, so x is within about twice that root of its end.
 */
function leavesPoses({ x, tauRe }: PathTracker): boolean {
  const left = 1 - tauRe;
  const share = poseShare(x);
  return (left < NEARLY_THERE && share < VANISHING) || share + 2 * left ** 0.25 < LEAST_POSE_SHARE;
}

/** |<e, e>| / |x|^2: zero where x is no pose. */
function poseShare(x: ComplexArray): number {
  let re = 0;
  let im = 0;
  let whole = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    whole += x.re[j] * x.re[j] + x.im[j] * x.im[j];
    if (j >= 4) continue;
    re += x.re[j] * x.re[j] - x.im[j] * x.im[j];
    im += 2 * x.re[j] * x.im[j];
  }
  return Math.hypot(re, im) / whole;
}

/**
 * End point of a path that is singular at tau = 1, by Cauchy's integral: near there x is a power series in
 * (1 - tau)^(1/turns), so its mean over a circle that is run round until x returns is the value at the centre.
 * (A. Morgan, A. Sommese, C. Wampler, Numer. Math. 58, 1991: from memory.)
 */
function circleEnd(tracker: PathTracker, care: TrackCare): PathEnd {
  let previous: ComplexArray | undefined;
  for (const radius of LOOP_RADII) {
    if (tracker.trackTo(1 - radius, 0, care) !== 'arrived') break;
    const mean = loopMean(tracker, radius, care);
    if (!mean) {
      previous = undefined;
      continue;
    }
    if (previous) {
      const change = projectiveDistance(mean, previous);
      if (change < AGREEMENT) {
        const kind = poseShare(mean) < VANISHED ? 'diverged' : 'singular';
        return end(kind, mean, Math.max(change, ROUNDING));
      }
    }
    previous = mean;
  }
  return end('failed', tracker.x, 1);
}

/** Mean of x over the loop of this radius; undefined when tracking fails or the loop does not close. */
function loopMean(tracker: PathTracker, radius: number, care: TrackCare): ComplexArray | undefined {
  const first = copyPoint(tracker.x);
  const sum = complexArray(UNKNOWNS);
  tracker.steps = 0;
  for (let turn = 1; turn <= MOST_TURNS; turn++) {
    for (let corner = 1; corner <= LOOP_CORNERS; corner++) {
      const angle = (2 * Math.PI * corner) / LOOP_CORNERS;
      const last = corner === LOOP_CORNERS;
      const re = 1 - radius * (last ? 1 : Math.cos(angle));
      const im = last ? 0 : -radius * Math.sin(angle);
      if (tracker.trackTo(re, im, care) !== 'arrived') return undefined;
      addOnChart(tracker.x, first, sum);
    }
    if (projectiveDistance(tracker.x, first) < CLOSED) return sum;
  }
  return undefined;
}

/** sum += x scaled so that <conj(chart), x> = 1: the same analytic representative all round the loop. */
function addOnChart(x: ComplexArray, chart: ComplexArray, sum: ComplexArray): void {
  let re = 0;
  let im = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    re += chart.re[j] * x.re[j] + chart.im[j] * x.im[j];
    im += chart.re[j] * x.im[j] - chart.im[j] * x.re[j];
  }
  const size = re * re + im * im;
  for (let j = 0; j < UNKNOWNS; j++) {
    sum.re[j] += (x.re[j] * re + x.im[j] * im) / size;
    sum.im[j] += (x.im[j] * re - x.re[j] * im) / size;
  }
}

/** Distance of two points as complex lines: |a - (projection of a on b)| / |a|; accurate when small. */
export function projectiveDistance(a: ComplexArray, b: ComplexArray): number {
  let re = 0;
  let im = 0;
  let aa = 0;
  let bb = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    re += b.re[j] * a.re[j] + b.im[j] * a.im[j];
    im += b.re[j] * a.im[j] - b.im[j] * a.re[j];
    aa += a.re[j] * a.re[j] + a.im[j] * a.im[j];
    bb += b.re[j] * b.re[j] + b.im[j] * b.im[j];
  }
  re /= bb;
  im /= bb;
  let rest = 0;
  for (let j = 0; j < UNKNOWNS; j++) {
    const dr = a.re[j] - re * b.re[j] + im * b.im[j];
    const di = a.im[j] - re * b.im[j] - im * b.re[j];
    rest += dr * dr + di * di;
  }
  return Math.sqrt(rest / aa);
}

const copyPoint = (x: ComplexArray): ComplexArray => ({ re: x.re.slice(0, UNKNOWNS), im: x.im.slice(0, UNKNOWNS) });

function end(kind: PathEnd['kind'], x: ComplexArray, accuracy: number): PathEnd {
  const point = copyPoint(x);
  let size = 0;
  for (let j = 0; j < UNKNOWNS; j++) size += point.re[j] ** 2 + point.im[j] ** 2;
  const inverse = 1 / Math.sqrt(size);
  for (let j = 0; j < UNKNOWNS; j++) {
    point.re[j] *= inverse;
    point.im[j] *= inverse;
  }
  return { kind, x: point, accuracy };
}
