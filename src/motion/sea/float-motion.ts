import { seededRandom } from '../../math/random.ts';
import { applyFade, fadeFactor } from '../paths/fade.ts';
import type { CoordinateMotion } from '../paths/path.ts';
import { SeaSpectrum, type SeaState, waveNumber } from './spectrum.ts';

/** A stretch of sea as a small float feels it. */
export interface FloatMotion {
  /** At the scale of the platform: height in mm, period in s. */
  readonly sea: SeaState;
  /** Direction in which the waves run, from the x axis toward y [rad]. */
  readonly heading: number;
  /** Highest frequency counted, in peak frequencies: slopes and accelerations grow with it without end. */
  readonly cut: number;
  readonly seed: number;
  /** [s] */
  readonly duration: number;
  /** Time of fading in and out [s]. */
  readonly fade: number;
}

/** Bins of the spectrum: their random frequencies keep the record from repeating. */
const BINS = 200;

/** Below half the peak frequency a sea holds under 1e-8 of its energy. */
const LOWEST = 0.5;

/** Gravity [mm/s^2]; at any scale, since Froude's similitude keeps accelerations. */
const GRAVITY_MM = 9806.65;

/** One wave of the sum. */
export interface WaveComponent {
  /** [mm] */
  readonly amplitude: number;
  /** [rad/s] */
  readonly w: number;
  /** [rad] */
  readonly phase: number;
}

/** Waves whose energies add up to that of the spectrum up to the cut; one frequency drawn within each bin, and a phase. */
export function seaComponents({ sea, cut, seed }: FloatMotion): readonly WaveComponent[] {
  const random = seededRandom(seed);
  const spectrum = new SeaSpectrum(sea);
  // narrow about the peak, wider above: ends at equal steps of x^-2 hold like energies
  const [from, to] = [LOWEST ** -2, cut ** -2];
  const end = (n: number): number => spectrum.peak * (from + ((to - from) * n) / BINS) ** -0.5;
  return Array.from({ length: BINS }, (_, n) => {
    const [low, high] = [end(n), end(n + 1)];
    const energy = spectrum.moment(0, high) - spectrum.moment(0, low);
    const w = low + (high - low) * random();
    return { amplitude: Math.sqrt(2 * Math.max(0, energy)), w, phase: 2 * Math.PI * random() };
  });
}

/**
 * A float that is short against the waves follows their elevation and slope (linear waves on deep water): z by
 * `sum a cos(w t + phase)`, and the plate lies in the surface, pitch = -dz/dx, roll = dz/dy. Not for hulls longer than some sixth of a
 * wave, nor near the float's own resonance.
 * @param middle pose about which it moves, six coordinates [mm, rad]
 */
export function floatMotion(middle: ArrayLike<number>, motion: FloatMotion): CoordinateMotion {
  const components = seaComponents(motion);
  const [east, north] = [Math.cos(motion.heading), Math.sin(motion.heading)];
  return {
    duration: motion.duration,
    write(time, q, dq, ddq) {
      q.set(middle);
      dq.fill(0);
      ddq.fill(0);
      let [z, dz, ddz, slope, dSlope, ddSlope] = [0, 0, 0, 0, 0, 0];
      for (const { amplitude, w, phase } of components) {
        const c = amplitude * Math.cos(w * time + phase);
        const s = amplitude * Math.sin(w * time + phase);
        const k = waveNumber(w, GRAVITY_MM);
        z += c;
        dz -= w * s;
        ddz -= w * w * c;
        // elevation cos(w t - k x + phase): its slope along the way of the waves is k sin(w t - k x + phase)
        slope += k * s;
        dSlope += k * w * c;
        ddSlope -= k * w * w * s;
      }
      q[2] += z;
      dq[2] += dz;
      ddq[2] += ddz;
      q[3] += north * slope;
      dq[3] += north * dSlope;
      ddq[3] += north * ddSlope;
      q[4] -= east * slope;
      dq[4] -= east * dSlope;
      ddq[4] -= east * ddSlope;
      applyFade(fadeFactor(time, motion.duration, motion.fade), middle, q, dq, ddq);
    },
  };
}
