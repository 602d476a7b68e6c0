import { gaussLegendre } from '../../math/gauss-legendre.ts';

/** A sea state by what is measured of it; lengths in any unit, the spectrum is in its square times seconds. */
export interface SeaState {
  /** Significant wave height Hs, four times the deviation of the surface. */
  readonly height: number;
  /** Period Tp at the peak of the spectrum [s]. */
  readonly peakPeriod: number;
  /** Peakedness; 1 is the fully grown sea of Pierson and Moskowitz, 3.3 the mean of JONSWAP. */
  readonly peakedness: number;
}

/** Width of the peak below and above its frequency (JONSWAP: K. Hasselmann and others 1973, from memory). */
const WIDTH_BELOW = 0.07;
const WIDTH_ABOVE = 0.09;

/** Shape for Hs = 1 and wp = 1 before normalisation: (5/16) x^-5 exp(-1.25 x^-4) g^exp(-(x - 1)^2 / (2 s^2)). */
function shape(x: number, peakedness: number): number {
  if (!(x > 0)) return 0;
  const width = x <= 1 ? WIDTH_BELOW : WIDTH_ABOVE;
  const peak = peakedness === 1 ? 1 : peakedness ** Math.exp(-0.5 * ((x - 1) / width) ** 2);
  return (5 / 16) * x ** -5 * Math.exp(-1.25 * x ** -4) * peak;
}

/** Nodes a piece: the pieces are cut where the shape bends, so that this gives ten digits. */
const RULE = gaussLegendre(48);

/** Below a quarter of the peak frequency the shape is under e^-320: nothing. */
const LOWEST = 0.25;

/** Ends of pieces over which the shape is smooth, in peak frequencies: closer about the peak, where its width is 0.07 to 0.09. */
const PIECES = [LOWEST, 0.55, 0.75, 0.88, 1, 1.12, 1.3, 1.6, 2.2, 3.5, 6, 12, 30];

/** Integral of f over [from, to] by pieces; the ends may lie anywhere. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const ends = [from, ...PIECES.filter((end) => end > from && end < to), to];
  let sum = 0;
  for (let n = 1; n < ends.length; n++) {
    const width = ends[n] - ends[n - 1];
    RULE.nodes.forEach((node, k) => {
      sum += RULE.weights[k] * width * f(ends[n - 1] + width * node);
    });
  }
  return sum;
}

/** Integral of x^order shape from LOWEST to `cut`; the tail to infinity, where the shape goes as x^-5, by x = 1/y. */
function shapeMoment(order: number, peakedness: number, cut = Number.POSITIVE_INFINITY): number {
  const last = PIECES[PIECES.length - 1];
  const body = integral((x) => x ** order * shape(x, peakedness), LOWEST, Math.min(cut, last));
  if (cut <= last) return body;
  const from = cut === Number.POSITIVE_INFINITY ? 0 : 1 / cut;
  const tail = integral((y) => (y > 0 ? y ** (-order - 2) * shape(1 / y, peakedness) : 0), from, 1 / last);
  return body + tail;
}

/** A spectrum of elevation with its moments; circular frequency w in rad/s throughout. */
export class SeaSpectrum {
  readonly state: SeaState;
  /** Circular frequency of the peak [rad/s]. */
  readonly peak: number;
  private readonly scale: number;

  /** @param state height and period above 0, peakedness at least 1 */
  constructor(state: SeaState) {
    this.state = state;
    this.peak = (2 * Math.PI) / state.peakPeriod;
    // exact normalisation: m0 = Hs^2 / 16 whatever the peakedness; the usual rule 1 - 0.287 ln g leaves Hs 0.9 % low at 7
    this.scale = state.height ** 2 / 16 / shapeMoment(0, state.peakedness);
  }

  /** Density S(w) [length^2 s/rad]. */
  density(w: number): number {
    return (this.scale / this.peak) * shape(w / this.peak, this.state.peakedness);
  }

  /**
   * Moment of order n, integral of w^n S(w) [length^2 (rad/s)^n]. From order 4 on it grows without end with the highest
   * frequency counted, so that `cut` [rad/s] must be given there and said beside the figure.
   */
  moment(order: number, cut = Number.POSITIVE_INFINITY): number {
    return this.scale * this.peak ** order * shapeMoment(order, this.state.peakedness, cut / this.peak);
  }

  /** Mean period between upward crossings of the rest level, 2 pi sqrt(m0 / m2) [s]. */
  crossingPeriod(cut = Number.POSITIVE_INFINITY): number {
    return 2 * Math.PI * Math.sqrt(this.moment(0, cut) / this.moment(2, cut));
  }
}

/** Wave number on deep water, k = w^2 / g [1/length], g in length/s^2. */
export const waveNumber = (w: number, gravity: number): number => (w * w) / gravity;

/** A sea state at 1:scale by Froude's similitude: lengths go by the scale, times by its root, angles and accelerations stay. */
export const froudeScaled = ({ height, peakPeriod, peakedness }: SeaState, scale: number): SeaState => ({
  height: height / scale,
  peakPeriod: peakPeriod / Math.sqrt(scale),
  peakedness,
});
