import { applyFade, fadeFactor } from './fade.ts';
import type { CoordinateMotion } from './path.ts';

/** One sine of one coordinate: amplitude [mm or rad] times sin(2 pi f t + phase). */
export interface Wave {
  /** Index among x, y, z, roll, pitch, yaw. */
  readonly coordinate: number;
  readonly amplitude: number;
  /** [Hz] */
  readonly frequency: number;
  /** [rad] */
  readonly phase: number;
}

/** Sines of several coordinates and frequencies added about a middle pose, faded in and out. */
export function waves(
  middle: ArrayLike<number>,
  parts: readonly Wave[],
  duration: number,
  fade: number,
): CoordinateMotion {
  return {
    duration,
    write(time, q, dq, ddq) {
      q.set(middle);
      dq.fill(0);
      ddq.fill(0);
      for (const { coordinate, amplitude, frequency, phase } of parts) {
        const w = 2 * Math.PI * frequency;
        const [sine, cosine] = [Math.sin(w * time + phase), Math.cos(w * time + phase)];
        q[coordinate] += amplitude * sine;
        dq[coordinate] += amplitude * w * cosine;
        ddq[coordinate] -= amplitude * w * w * sine;
      }
      applyFade(fadeFactor(time, duration, fade), middle, q, dq, ddq);
    },
  };
}

/** One coordinate swung with a frequency that grows evenly from one value to another [Hz]. */
export interface Chirp {
  readonly coordinate: number;
  readonly amplitude: number;
  readonly from: number;
  readonly to: number;
}

/** A chirp about a middle pose, faded in and out. */
export function chirp(
  middle: ArrayLike<number>,
  { coordinate, amplitude, from, to }: Chirp,
  duration: number,
  fade: number,
): CoordinateMotion {
  const rise = (to - from) / duration;
  return {
    duration,
    write(time, q, dq, ddq) {
      q.set(middle);
      dq.fill(0);
      ddq.fill(0);
      const angle = 2 * Math.PI * (from + (rise * time) / 2) * time;
      const w = 2 * Math.PI * (from + rise * time);
      q[coordinate] += amplitude * Math.sin(angle);
      dq[coordinate] += amplitude * w * Math.cos(angle);
      ddq[coordinate] += amplitude * (2 * Math.PI * rise * Math.cos(angle) - w * w * Math.sin(angle));
      applyFade(fadeFactor(time, duration, fade), middle, q, dq, ddq);
    },
  };
}
