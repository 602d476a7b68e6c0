import { type LongWork, neverStop } from '../../math/long-work.ts';
import { type Random, seededRandom, uniform } from '../../math/random.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { type JointCentres, LEG_COUNT } from '../layout.ts';
import {
  badJoint,
  badLength,
  type ForwardFault,
  finiteCentres,
  firstBadLength,
  singularEverywhereFault,
} from './faults.ts';
import { type ComplexArray, complexArray, LegQuadrics, PARAMETER_COUNT, PARAMETERS_PER_LEG } from './leg-quadrics.ts';
import { layoutSize, type NormalLayout, normalLayout, singularEverywhere } from './normal-layout.ts';
import { followPath, type PathEnd } from './path-end.ts';
import { PathTracker } from './path-tracker.ts';
import { type AssemblyPose, realPosesOf } from './pose-list.ts';
import { SOLUTION_COUNT, START_PARAMETERS, START_SOLUTIONS } from './start-system.ts';
import { suspectPaths } from './suspect-paths.ts';

/** Every pose that has six given lengths, and how far the list can be trusted. */
export interface AssemblyPoses {
  /** Highest tool point first. */
  readonly poses: readonly AssemblyPose[];
  /** Where the 40 paths ended; they add to 40. A pose of multiplicity m takes m paths. */
  readonly paths: {
    readonly real: number;
    readonly complex: number;
    readonly diverged: number;
    readonly failed: number;
  };
  /** True when every path was decided and no doubt is left: then there are no other poses. */
  readonly complete: boolean;
  /**
   * True when solutions (poses, or their complex likes) form a continuum: the platform may be able to move with its legs
   * locked, and the list then holds at best single points of that motion.
   */
  readonly continuum: boolean;
  /** True when the work was stopped before its end. */
  readonly stopped: boolean;
}

export interface AssemblyOptions {
  /** p_PoTo_P, in the unit of the centres; the platform's own origin if left out. */
  readonly tool?: Vec3;
  readonly work?: LongWork;
  /** Of the detours taken when paths meet trouble; the result does not depend on it. */
  readonly seed?: number;
}

/** First go, and second go for the paths in doubt. */
const USUAL_CARE = { predictionError: 1e-5, stepLimit: 1500 };
const GREAT_CARE = { predictionError: 1e-9, stepLimit: 6000 };
/** Rounds over a new way through parameter space, when doubts remain. */
const DETOURS = 3;
/** Size of a detour beside parameters of size 1. */
const DETOUR_SIZE = 0.5;

/**
 * All real poses of a layout with six leg lengths, by a parameter homotopy over the complex numbers: the 40 solutions of
 * a stored general system (start-system.ts) are tracked while its parameters move to those of the layout. Those that end
 * real are refined in real arithmetic and checked against the lengths.
 *
 * That the paths from a general start reach every isolated solution: A. Morgan and A. Sommese, Coefficient-parameter
 * polynomial continuation, Appl. Math. Comput. 29, 1989 (from memory).
 *
 * @param centres joint centres, any one length unit
 * @param lengths six, pin to pin, the same unit
 */
export function solveAll(
  centres: JointCentres,
  lengths: ArrayLike<number>,
  { tool = [0, 0, 0], work = neverStop, seed = 1 }: AssemblyOptions = {},
): Result<AssemblyPoses, ForwardFault> {
  if (!finiteCentres(centres)) return failed(badJoint);
  const bad = firstBadLength(lengths);
  if (bad > 0) return failed(badLength(bad));
  const layout = normalLayout(centres, lengths);
  if (layoutSize(layout.centres) === 0 || singularEverywhere(layout)) return failed(singularEverywhereFault);

  const target = parametersOf(layout);
  const random = seededRandom(seed);
  let best = followAll(target, undefined, inRound(work, 0));
  let stopped = best.stopped;
  let rounds = 1;
  for (; best.doubts > 0 && !stopped && rounds <= DETOURS; rounds++) {
    const round = followAll(target, drawDetour(random), inRound(work, rounds));
    stopped = round.stopped;
    if (round.doubts < best.doubts) best = round;
  }
  // a second way tells isolated singular ends from others; without one they are given the benefit of the doubt
  let again = best.ends;
  if (!stopped && best.ends.some(({ kind }) => kind === 'singular')) {
    const round = followAll(target, drawDetour(random), inRound(work, rounds));
    stopped = round.stopped;
    if (!stopped) again = round.ends;
  }
  return ok(outcome({ ...best, stopped }, again, layout, tool));
}

/** Rounds are added as need arises, so the total grows with them. */
const inRound = (work: LongWork, round: number): LongWork => ({
  report: (done, total) => work.report(round * total + done, (round + 1) * total),
  shouldStop: () => work.shouldStop(),
});

/** The ends of all paths after one way through parameter space. */
interface Round {
  readonly ends: readonly PathEnd[];
  readonly doubts: number;
  readonly stopped: boolean;
}

function followAll(target: ComplexArray, bend: ComplexArray | undefined, work: LongWork): Round {
  const quadrics = new LegQuadrics();
  quadrics.setPath(START_PARAMETERS, target, bend);
  const tracker = new PathTracker(quadrics);
  const ends: PathEnd[] = [];
  for (let index = 0; index < SOLUTION_COUNT; index++) {
    if (work.shouldStop()) return { ends, doubts: SOLUTION_COUNT - index, stopped: true };
    ends.push(followPath(tracker, START_SOLUTIONS, index, USUAL_CARE));
    work.report(index + 1, SOLUTION_COUNT);
  }
  for (const index of suspectPaths(ends)) {
    if (work.shouldStop()) return { ends, doubts: suspectPaths(ends).length, stopped: true };
    ends[index] = followPath(tracker, START_SOLUTIONS, index, GREAT_CARE);
  }
  return { ends, doubts: suspectPaths(ends).length, stopped: false };
}

function drawDetour(random: Random): ComplexArray {
  const bend = complexArray(PARAMETER_COUNT);
  for (let i = 0; i < PARAMETER_COUNT; i++) {
    bend.re[i] = uniform(random, -DETOUR_SIZE, DETOUR_SIZE);
    bend.im[i] = uniform(random, -DETOUR_SIZE, DETOUR_SIZE);
  }
  return bend;
}

function outcome(
  { ends, doubts, stopped }: Round,
  again: readonly PathEnd[],
  layout: NormalLayout,
  tool: Vec3,
): AssemblyPoses {
  const found = realPosesOf(ends, again, layout, tool);
  const diverged = ends.filter(({ kind }) => kind === 'diverged').length;
  const undecided =
    SOLUTION_COUNT - ends.length + ends.filter(({ kind }) => kind === 'failed').length + found.unsettled;
  return {
    poses: found.poses,
    paths: {
      real: found.paths,
      complex: SOLUTION_COUNT - found.paths - diverged - undecided,
      diverged,
      failed: undecided,
    },
    complete: doubts === 0 && undecided === 0 && !found.continuum && !stopped,
    continuum: found.continuum,
    stopped,
  };
}

/** d = b - a, m = b + a, s = l^2 of each leg: see leg-quadrics.ts. */
function parametersOf({ centres, lengths }: NormalLayout): ComplexArray {
  const parameters = complexArray(PARAMETER_COUNT);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const at = PARAMETERS_PER_LEG * leg;
    for (let j = 0; j < 3; j++) {
      const a = centres.base[3 * leg + j];
      const b = centres.platform[3 * leg + j];
      parameters.re[at + j] = b - a;
      parameters.re[at + 3 + j] = b + a;
    }
    parameters.re[at + 6] = lengths[leg] ** 2;
  }
  return parameters;
}
