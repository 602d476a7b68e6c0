import { LIMIT_SLACK } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import { type Mat3, multiply3, rotationAbout } from '../../math/rotation.ts';
import { type Box, newBox, writeBoundingBox } from './bounding-box.ts';
import { ColumnLattice } from './column-lattice.ts';
import { CommonReach } from './common-column.ts';
import { ALL_LIMITS, Constraints } from './constraints.ts';
import { integrate } from './integration.ts';
import { ReachMeter } from './meter.ts';
import type { ReachProblem } from './problem.ts';
import type { ReachMeasure, ReachOptions } from './reach-measure.ts';

/** A range of orientations about a middle one. */
export interface TiltRange {
  /** The platform's axis leans up to this far from its middle direction, any way [rad, 0 to pi]. */
  readonly tilt: number;
  /** The platform turns up to this far about its own axis, either way [rad]. */
  readonly yaw: number;
}

export interface TiltOptions extends TiltRange, ReachOptions {
  /** The middle orientation; the home orientation when left out. */
  readonly R_BP?: Mat3;
}

/** Positions that the tool point can take at every orientation of a range, as far as the orientations were sampled. */
export interface TiltedReach extends ReachMeasure {
  readonly range: TiltRange;
  /** Orientations tried; between them the reach may be smaller, so the volume is an upper estimate. */
  readonly sampledOrientations: number;
  /** Share of the volume that the last doubling of the sample still took away. */
  readonly samplingChange: number;
  /** False when the cap on orientations, or a stop, came before the change fell below the asked error. */
  readonly samplingSettled: boolean;
}

/** Directions of lean in the first sample, and the most that refinement may go to. */
const FIRST_SPOKES = 6;
const MOST_SPOKES = 48;

/** Columns by which two samples are compared; the same ones for both, so that their own error cancels. */
const COMPARED_COLUMNS = 300;

/**
 * Positions reachable at all orientations R = R_middle Rot(lean about a level platform axis) Rz(yaw), lean up to `tilt` in any
 * direction, yaw within +-`yaw`. The orientations are sampled: middle, rings of leans, ends and middle of the yaw range, refined
 * until doubling the sample changes the volume by less than the asked error.
 */
export function reachOverTilt(mechanism: Mechanism, options: TiltOptions, work: LongWork = neverStop): TiltedReach {
  const { tilt, yaw } = options;
  const middle = options.R_BP ?? mechanism.home.R_BP;
  const asked = options.relativeError ?? SAMPLING_ERROR;
  const lattice = new ColumnLattice();
  let spokes = FIRST_SPOKES;
  let problem = problemOver(mechanism, sampleOrientations(middle, options, spokes), options);
  let change = 0;
  let settled = (tilt <= 0 && yaw <= 0) || !problem.possible;
  while (!settled && spokes < MOST_SPOKES && !work.shouldStop()) {
    work.report(spokes, 2 * MOST_SPOKES);
    const finer = problemOver(mechanism, sampleOrientations(middle, options, 2 * spokes), options);
    change = volumeChange(problem, finer, lattice);
    problem = finer;
    spokes *= 2;
    settled = change <= asked || !problem.possible;
  }
  const measure = new ReachMeter().measureProblem(problem, options, work);
  return {
    ...measure,
    range: { tilt, yaw },
    sampledOrientations: problem.sets.length,
    samplingChange: measure.empty ? 0 : change,
    samplingSettled: settled,
  };
}

/** Where no error is asked: half a percent, as for the volume. */
const SAMPLING_ERROR = 0.005;

/** Share by which the volume of a problem exceeds that of a finer sample of the same orientations. */
function volumeChange(coarse: ReachProblem, fine: ReachProblem, lattice: ColumnLattice): number {
  const { footprint } = integrate(coarse, lattice, Number.POSITIVE_INFINITY, COMPARED_COLUMNS);
  const before = lattice.volume();
  if (!(before > 0)) return 0;
  lattice.run(fine.cutter, 2, footprint, lattice.spacing);
  return 1 - lattice.volume() / before;
}

/** The limits of several orientations together. */
function problemOver(mechanism: Mechanism, orientations: readonly Mat3[], options: ReachOptions): ReachProblem {
  const sets = orientations.map((R) => {
    const set = new Constraints();
    set.setMechanism(mechanism, R, options.enabled ?? ALL_LIMITS);
    return set;
  });
  const box = newBox();
  const possible = meetBoxes(sets, box);
  return {
    sets,
    cutter: new CommonReach(sets),
    box,
    possible,
    symmetry: null,
    home: mechanism.home.p_BoTo_B,
    slack: LIMIT_SLACK * Math.max(mechanism.size, mechanism.legs.max),
  };
}

/** Intersects the bounding boxes of all sets; false when nothing is left. */
function meetBoxes(sets: readonly Constraints[], box: Box): boolean {
  const one = newBox();
  box.fill(Number.NEGATIVE_INFINITY, 0, 3);
  box.fill(Number.POSITIVE_INFINITY, 3, 6);
  for (const set of sets) {
    writeBoundingBox(set, one);
    for (let axis = 0; axis < 3; axis++) {
      box[axis] = Math.max(box[axis], one[axis]);
      box[3 + axis] = Math.min(box[3 + axis], one[3 + axis]);
    }
  }
  return box[0] < box[3] && box[1] < box[4] && box[2] < box[5];
}

/**
 * The middle, a ring of `spokes` leans at the full tilt and one of half as many at half of it, each at both ends of the yaw range
 * and, once the sample has been refined, in its middle too.
 */
export function sampleOrientations(middle: Mat3, { tilt, yaw }: TiltRange, spokes: number): Mat3[] {
  const yaws = yaw > 0 ? (spokes > FIRST_SPOKES ? [-yaw, -yaw / 2, 0, yaw / 2, yaw] : [-yaw, 0, yaw]) : [0];
  const leans: Mat3[] = [rotationAbout([1, 0, 0], 0)];
  if (tilt > 0) {
    for (const [share, count] of [
      [1, spokes],
      [1 / 2, spokes / 2],
    ]) {
      for (let spoke = 0; spoke < count; spoke++) {
        const toward = (2 * Math.PI * spoke) / count;
        leans.push(rotationAbout([Math.cos(toward), Math.sin(toward), 0], share * tilt));
      }
    }
  }
  return leans.flatMap((lean) => {
    const leaning = multiply3(middle, lean);
    return yaws.map((turn) => multiply3(leaning, rotationAbout([0, 0, 1], turn)));
  });
}
