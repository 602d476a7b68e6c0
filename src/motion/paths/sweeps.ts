import { applyFade, fadeFactor } from './fade.ts';
import type { CoordinateMotion } from './path.ts';

/** Going round in the plane of x and y, or leaning round: `turns` times in the whole duration, counter-clockwise seen from above. */
export interface Round {
  readonly turns: number;
  /** Radius of the tool point's circle [mm], 0 for none. */
  readonly radius: number;
  /** Lean of the platform toward where it is on its round [rad], 0 for none. */
  readonly lean: number;
  /** Rise from the first to the last turn [mm]; with it the circle is a helix, with `spiral` a spiral. */
  readonly rise: number;
  /** Radius and lean grow evenly from 0 to full over the whole duration. */
  readonly spiral: boolean;
}

/**
 * Circle, cone and spiral about a middle pose, faded in and out. A lean by `a` toward azimuth `b` is given by roll and pitch:
 * for R = Rz(yaw) Ry(pitch) Rx(roll) without yaw the platform's normal is (sin p cos r, -sin r, cos p cos r), so
 * `sin roll = -sin a sin b`, `tan pitch = tan a cos b`.
 */
export function roundMotion(
  middle: ArrayLike<number>,
  { turns, radius, lean, rise, spiral }: Round,
  duration: number,
  fade: number,
): CoordinateMotion {
  const rate = (2 * Math.PI * turns) / duration;
  return {
    duration,
    write(time, q, dq, ddq) {
      q.set(middle);
      dq.fill(0);
      ddq.fill(0);
      const b = rate * time;
      const [c, s] = [Math.cos(b), Math.sin(b)];
      const growth = spiral ? time / duration : 1;
      const growing = spiral ? 1 / duration : 0;
      const circle = (index: number, value: number, slope: number, curve: number): void => {
        q[index] += radius * growth * value;
        dq[index] += radius * (growth * slope + growing * value);
        ddq[index] += radius * (growth * curve + 2 * growing * slope);
      };
      circle(0, c, -rate * s, -rate * rate * c);
      circle(1, s, rate * c, -rate * rate * s);
      q[2] += (rise * time) / duration;
      dq[2] += rise / duration;
      if (lean !== 0) leanRound(lean * growth, lean * growing, b, rate, q, dq, ddq);
      applyFade(fadeFactor(time, duration, fade), middle, q, dq, ddq);
    },
  };
}

/** Adds roll and pitch of a lean `a` toward azimuth `b`, with a' and b' steady. */
function leanRound(
  a: number,
  da: number,
  b: number,
  db: number,
  q: Float64Array,
  dq: Float64Array,
  ddq: Float64Array,
): void {
  const [sa, ca, sb, cb] = [Math.sin(a), Math.cos(a), Math.sin(b), Math.cos(b)];
  // sin roll = f, f = -sin a sin b
  const f = -sa * sb;
  const df = -ca * da * sb - sa * cb * db;
  const ddf = sa * da * da * sb - 2 * ca * da * cb * db + sa * sb * db * db;
  const root = Math.sqrt(1 - f * f);
  q[3] += Math.asin(f);
  dq[3] += df / root;
  ddq[3] += (ddf + (f * df * df) / (root * root)) / root;
  // tan pitch = g, g = tan a cos b
  const ta = sa / ca;
  const dta = da / (ca * ca);
  const ddta = 2 * ta * da * dta;
  const g = ta * cb;
  const dg = dta * cb - ta * sb * db;
  const ddg = ddta * cb - 2 * dta * sb * db - ta * cb * db * db;
  const square = 1 + g * g;
  q[4] += Math.atan(g);
  dq[4] += dg / square;
  ddq[4] += (ddg - (2 * g * dg * dg) / square) / square;
}
