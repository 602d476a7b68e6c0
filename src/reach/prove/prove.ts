import { clearanceModel } from '../../kinematics/clearance-pairs.ts';
import { inputFault, type JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { jointShapes } from '../../kinematics/joint-limits.ts';
import { type DirectionBound, directionBounds } from '../../kinematics/joint-shapes.ts';
import { type ClearanceSpec, clearanceFault } from '../../kinematics/keep-out.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { anglesFromNumbers, type PoseBox, poseNumbers } from '../pose-box.ts';
import {
  type Claim,
  DirectionClaim,
  EitherClaim,
  LengthClaim,
  PROOF_QUESTIONS,
  type Question,
} from './prove-claims.ts';
import { PairClaim, PosedModel } from './prove-clear.ts';
import { RegularClaim } from './prove-regular.ts';
import { type CounterExample, CounterSearch, type Refutation } from './prove-search.ts';
import { type BoxOutcome, subdivide } from './prove-subdivide.ts';

/** What is known of one question after a proof was tried. */
export type ProofAnswer =
  /** Holds at every pose of the box, by interval bounds on boxes that cover it. */
  | { readonly answer: 'proven' }
  /** Fails at this pose, found by search and checked exactly. */
  | { readonly answer: 'refuted'; readonly pose: PoseAngles; readonly reason: Refutation }
  /** Neither: in this share of the box (0 to 1) the bounds were too wide at the depth allowed; `near` lies in it. */
  | { readonly answer: 'undecided'; readonly share: number; readonly near: PoseAngles };

export interface ProofReport {
  /** Every leg keeps its length limits and both joint limits. */
  readonly reachable: ProofAnswer;
  /** No pose is singular, so the determinant keeps its sign. */
  readonly regular: ProofAnswer;
  /** Every two bodies keep the asked distance; null when no bodies were given. */
  readonly clear: ProofAnswer | null;
  /** Boxes examined, and the most halvings of any of them. */
  readonly boxes: number;
  readonly depth: number;
}

/** The answers to the questions asked, in the order in which they were asked. */
export interface BoxDecision {
  readonly answers: readonly { readonly question: Question; readonly answer: ProofAnswer }[];
  /** Boxes examined, and the most halvings of any of them. */
  readonly boxes: number;
  readonly depth: number;
  /** The number of boxes allowed ran out, or the work was stopped, before every box was settled or halved enough. */
  readonly cutShort: boolean;
}

export interface ProofOptions {
  /** Bodies to keep apart; null or left out: not asked. */
  readonly clearance?: ClearanceSpec | null;
  /** Distance that bodies must keep [mm]. */
  readonly clearanceFloor?: number;
  /** Halvings allowed for any box; each question not settled by then is undecided there. */
  readonly depth?: number;
  /** Boxes allowed in all. */
  readonly boxes?: number;
}

/** Four halvings of each of the six pose numbers. */
export const DEFAULT_PROOF_DEPTH = 24;

/** Some seconds of work. */
export const DEFAULT_PROOF_BOXES = 200_000;

/** Angles are enclosed exactly up to this far from a box's centre [rad]. */
const LARGEST_HALF_ANGLE = Math.PI / 2;

/**
 * Decides for a whole box of poses, not for samples of it, whether every pose is reachable, free of singular poses, and clear.
 * Interval bounds on the box, and on its parts where those are too wide, prove; a search over corners and
 * downhill refutes.
 */
export function proveBox(
  mechanism: Mechanism,
  box: PoseBox,
  options: ProofOptions = {},
  work: LongWork = neverStop,
): Result<ProofReport, JudgementFault> {
  const decided = decideBox(mechanism, box, PROOF_QUESTIONS, options, work);
  if (!decided.ok) return decided;
  const { answers, boxes, depth } = decided.value;
  const [reachable, regular, clear] = PROOF_QUESTIONS.map(
    (asked) => answers.find(({ question }) => question === asked)?.answer ?? null,
  );
  if (!reachable || !regular) throw new Error('two of the three questions are always answered');
  return ok({ reachable, regular, clear, boxes, depth });
}

/**
 * {@link proveBox} for some of the questions only.
 * @param asked `clear` is left out of the answers when no bodies were given
 */
export function decideBox(
  mechanism: Mechanism,
  box: PoseBox,
  asked: readonly Question[],
  options: ProofOptions = {},
  work: LongWork = neverStop,
): Result<BoxDecision, JudgementFault> {
  const spec = asked.includes('clear') ? (options.clearance ?? null) : null;
  const fault = boxFault(box) ?? (spec && clearanceFault(spec));
  if (fault) return failed(fault);
  const centre = poseNumbers(box.centre);
  const half = poseNumbers(box.half);
  const floor = options.clearanceFloor ?? 0;
  const model = spec ? clearanceModel(mechanism, spec) : null;
  const search = new CounterSearch(mechanism, model, floor);
  const questions = asked.filter((question) => question !== 'clear' || model !== null);
  const refuted: Record<Question, CounterExample | null> = { reachable: null, regular: null, clear: null };
  for (const question of questions) refuted[question] = findCounter(search, question, centre, half);
  const claims: readonly Claim[] = [
    ...reachClaims(mechanism),
    new RegularClaim(),
    ...(model ? pairClaims(new PosedModel(model), floor) : []),
  ].filter(({ question }) => questions.includes(question) && refuted[question] === null);
  const outcome = subdivide(mechanism, claims, centre, half, {
    search,
    depth: options.depth ?? DEFAULT_PROOF_DEPTH,
    boxes: options.boxes ?? DEFAULT_PROOF_BOXES,
    work,
  });
  return ok({
    answers: questions.map((question) => ({
      question,
      answer: answerFor(refuted[question] ?? outcome.refuted[question], outcome, question),
    })),
    boxes: outcome.boxes,
    depth: outcome.depth,
    cutShort: outcome.cutShort,
  });
}

function findCounter(
  search: CounterSearch,
  question: Question,
  centre: Float64Array,
  half: Float64Array,
): CounterExample | null {
  switch (question) {
    case 'reachable':
      return search.findUnreachable(centre, half);
    case 'regular':
      return search.findSingular(centre, half);
    case 'clear':
      return search.findBlocked(centre, half);
  }
}

function reachClaims(mechanism: Mechanism): Claim[] {
  const shapes = jointShapes(mechanism);
  const claims: Claim[] = [];
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    claims.push(new LengthClaim(leg, 'min'), new LengthClaim(leg, 'max'));
    for (const plate of ['base', 'platform'] as const) {
      const { all, either } = directionBounds(shapes[plate][leg]);
      const claim = (bound: DirectionBound) => new DirectionClaim(leg, plate, bound);
      claims.push(...all.map(claim));
      if (either) claims.push(new EitherClaim(claim(either[0]), claim(either[1])));
    }
  }
  return claims;
}

const pairClaims = (posed: PosedModel, floor: number): Claim[] =>
  [...posed.model.legPairs, ...posed.model.legSolidPairs, ...posed.model.solidPairs].map(
    (pair) => new PairClaim(posed, pair, floor),
  );

function answerFor(counter: CounterExample | null, { undecided }: BoxOutcome, question: Question): ProofAnswer {
  if (counter) return { answer: 'refuted', pose: anglesFromNumbers(counter.numbers), reason: counter.reason };
  const { share, near } = undecided[question];
  return near ? { answer: 'undecided', share, near: anglesFromNumbers(near) } : { answer: 'proven' };
}

function boxFault({ centre, half }: PoseBox): JudgementFault | null {
  if (!poseNumbers(centre).every(Number.isFinite))
    return inputFault('The middle of the box must be six finite numbers.');
  const halves = poseNumbers(half);
  const name = ['x', 'y', 'z', 'roll', 'pitch', 'yaw'];
  for (let number = 0; number < 6; number++) {
    const most = number < 3 ? Number.MAX_VALUE : LARGEST_HALF_ANGLE;
    if (!(halves[number] >= 0 && halves[number] <= most))
      return inputFault(
        `Half-range of ${name[number]}: ${halves[number]}; it must be at least 0${number < 3 ? '' : ' and at most a quarter turn'}.`,
      );
  }
  return null;
}
