import { NearSolver } from '../kinematics/forward/near-solver.ts';
import { solveWith } from '../kinematics/forward/solve-near.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { writeLegs } from '../kinematics/legs.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { type Path, writableMoment } from './paths/path.ts';

/** How far a motion leaves its path when only leg lengths are interpolated between given times. */
export interface LegSpaceDeviation {
  /** Largest distance of the tool point [mm] and largest turn [rad] from the path, and the times of both. */
  readonly distance: number;
  readonly distanceAt: number;
  readonly turn: number;
  readonly turnAt: number;
  /** Segments within which the legs' straight way leads to no pose near the path. */
  readonly lost: number;
}

/** Looks within a segment: the deviation is a flat bulge, so its top is met within 1 % of its height. */
const LOOKS = 15;

/**
 * Largest deviation from a path when the six lengths go straight, and evenly in time, from one given time to the next, as a
 * controller does that knows lengths only. Sampled at 15 moments a segment.
 * @param times ends of the segments, increasing
 */
export function legSpaceDeviation(mechanism: Mechanism, path: Path, times: ArrayLike<number>): LegSpaceDeviation {
  const solver = new NearSolver(mechanism.centres, mechanism.p_PoTo_P);
  const moment = writableMoment();
  const vectors = new Float64Array(3 * LEG_COUNT);
  let start = new Float64Array(LEG_COUNT);
  let end = new Float64Array(LEG_COUNT);
  const lengths = new Float64Array(LEG_COUNT);
  const lengthsAt = (time: number, out: Float64Array): void => {
    path.write(time, moment);
    writeLegs(mechanism, moment.pose, vectors, out);
  };
  let [distance, distanceAt, turn, turnAt, lost] = [0, 0, 0, 0, 0];
  if (times.length > 0) lengthsAt(times[0], end);
  for (let n = 1; n < times.length; n++) {
    [start, end] = [end, start];
    lengthsAt(times[n], end);
    for (let k = 1; k <= LOOKS; k++) {
      const share = k / (LOOKS + 1);
      const time = times[n - 1] + share * (times[n] - times[n - 1]);
      for (let leg = 0; leg < LEG_COUNT; leg++) lengths[leg] = start[leg] + share * (end[leg] - start[leg]);
      path.write(time, moment);
      const { p_BoTo_B: p, R_BP: R } = moment.pose;
      const found = solveWith(solver, lengths, moment.pose);
      if (!found.ok) {
        lost++;
        break;
      }
      const { p_BoTo_B: q, R_BP: S } = found.value.pose;
      const away = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
      if (away > distance) [distance, distanceAt] = [away, time];
      // |R - S| in the Frobenius norm is 2 sqrt 2 sin(turn / 2)
      const turned = 2 * Math.asin(Math.min(1, Math.hypot(...R.map((entry, i) => entry - S[i])) / (2 * Math.SQRT2)));
      if (turned > turn) [turn, turnAt] = [turned, time];
    }
  }
  return { distance, distanceAt, turn, turnAt, lost };
}
