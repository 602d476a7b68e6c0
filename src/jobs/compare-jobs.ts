import { FREEDOMS, type Freedom, freeTravel, poseNumber, type TravelStop } from '../kinematics/free-travel.ts';
import { type MagnificationLine, magnificationAlong } from '../kinematics/magnification-line.ts';
import { compileMechanism, type Mechanism } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { measureReach } from '../reach/columns/meter.ts';
import type { ReachMeasure } from '../reach/columns/reach-measure.ts';
import { type ReachSurface, reachSurface } from './reach-picture.ts';
import type { ReachQuestion } from './reach-question.ts';

/** A layout to compare, with its home pose as its document writes it [mm, rad]. */
export interface CompareQuestion extends ReachQuestion {
  readonly home: PoseAngles;
}

/** How far one number of the pose goes from home, and how firmly the legs hold the platform on the way. */
export interface FreedomLine extends MagnificationLine {
  readonly freedom: Freedom;
  /** The number at home; `values` are absolute as well [mm or rad]. */
  readonly home: number;
  /** Where limits stop it; null where none was met as far as was searched. */
  readonly down: TravelStop | null;
  readonly up: TravelStop | null;
  /** Step of the search for the stops [mm or rad]. */
  readonly step: number;
}

/** What is compared of a layout, apart from its reach over the tilt range. */
export interface ComparedLayout {
  /** Reach at home orientation. */
  readonly level: ReachMeasure;
  readonly shell: ReachSurface;
  /** One for each of the six numbers; null when home itself breaks limits. */
  readonly lines: readonly FreedomLine[] | null;
}

/** Samples of a line, ends included: closer than a pixel on a curve as wide as a hand. */
export const LINE_SAMPLES = 121;

/** Cells along the longest side of a compared shell: between the coarse and the fine drawing, since four are shown at once. */
const SHELL_RESOLUTION = 36;

/** Where no limit stops a number, its line ends so far from home: a turn of a third, or the longest leg. */
const UNSTOPPED_TURN = (2 * Math.PI) / 3;

/** Compares nothing by itself: computes what is put side by side, one layout at a time. */
export function comparedLayout({ spec, R_BP, home }: CompareQuestion): ComparedLayout {
  const mechanism = compileMechanism(spec);
  return {
    level: measureReach(mechanism, R_BP),
    shell: reachSurface(mechanism, R_BP, SHELL_RESOLUTION),
    lines: freedomLines(mechanism, home),
  };
}

function freedomLines(mechanism: Mechanism, home: PoseAngles): readonly FreedomLine[] | null {
  const travel = freeTravel(mechanism, home);
  if (!travel.ok) return null;
  return travel.value.map((found) => {
    const index = FREEDOMS.indexOf(found.freedom);
    const at = poseNumber(home, index);
    const unstopped = index < 3 ? mechanism.legs.max : UNSTOPPED_TURN;
    const low = found.down?.at ?? at - unstopped;
    const high = found.up?.at ?? at + unstopped;
    return { ...found, home: at, ...magnificationAlong(mechanism, home, index, low, high, LINE_SAMPLES) };
  });
}
