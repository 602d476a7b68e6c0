import type { LegErrors } from '../kinematics/error-sources.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { anglesFromNumbers } from '../reach/pose-box.ts';
import { decideBox } from '../reach/prove/prove.ts';
import { canBound, FigureBounder } from './figure-bounds.ts';
import { type FigureExtremes, FigureSearch } from './figure-extremes.ts';
import { allowedBadness, figureLines, neededFigures } from './figure-lines.ts';
import { chosenPoses, PoseMargins } from './free-axes.ts';
import { LegSearch } from './leg-extremes.ts';
import { legLines } from './leg-lines.ts';
import { LINE_QUANTITIES, leastMargin, type TaskLine } from './line.ts';
import { marginAtLeast } from './margin.ts';
import { hasFreeAxes, type Piece } from './piece.ts';
import type { FigureSettings } from './pose-figures.ts';
import { piecesOf, type Requirement } from './requirement.ts';

/** What is known of the parts beyond the geometry. */
export interface TaskParts {
  /** Six entries. */
  readonly errors: readonly LegErrors[];
  /** Springs of the six legs, joints included [N/mm]; null: not known. */
  readonly springs: Float64Array | null;
  /** Why a leg may turn about itself in place of changing its length; null where it cannot. */
  readonly freeSpin: string | null;
}

/** A requirement, judged. */
export interface RequirementReport {
  readonly name: string;
  readonly must: boolean;
  readonly meets: boolean;
  /** The least of the lines that count. */
  readonly margin: number;
  readonly lines: readonly TaskLine[];
  /** Share of the region (0 to 1) in which it could not be told whether a pose is singular; null where no proof was tried. */
  readonly undecided: number | null;
}

/** How much is to be known. */
export interface JudgeOptions {
  /** Bounds over the whole region, as proofs. */
  readonly prove: boolean;
  /** Lines of figures that nothing is asked of. */
  readonly all: boolean;
}

export const JUDGE_FULLY: JudgeOptions = { prove: true, all: true };

/** Boxes of poses that a proof of the clearance may look at. */
const CLEARANCE_BOXES = 400;

/** Searches of one mechanism, kept for all requirements. */
export class RequirementJudge {
  readonly mechanism: Mechanism;
  readonly parts: TaskParts;
  private readonly legs: LegSearch;

  constructor(mechanism: Mechanism, parts: TaskParts) {
    this.mechanism = mechanism;
    this.parts = parts;
    this.legs = new LegSearch(mechanism);
  }

  judge(requirement: Requirement, options: JudgeOptions): RequirementReport {
    return this.judgePieces(requirement, piecesOf(requirement.region), options);
  }

  /** {@link judge} over other poses than the requirement's own. */
  judgePieces(requirement: Requirement, given: readonly Piece[], options: JudgeOptions): RequirementReport {
    const { mechanism, legs, parts } = this;
    const { limits, load, push } = requirement;
    const settings: FigureSettings = { errors: parts.errors, springs: parts.springs, load, push };
    const free = given.some(hasFreeAxes);
    const margins = free ? new PoseMargins(mechanism, requirement, legs, settings) : null;
    const pieces = margins ? given.flatMap((piece) => chosenPoses(piece, margins)) : given;
    // of poses chosen by a search nothing is proven
    const prove = options.prove && !free;
    const lines = [...legLines(mechanism, legs.extremes(pieces, prove), limits)];
    const figures = this.figures(requirement, settings, pieces, { ...options, prove });
    lines.push(...figures.lines, ...this.spinLine());
    lines.sort((a, b) => LINE_QUANTITIES.indexOf(a.quantity) - LINE_QUANTITIES.indexOf(b.quantity));
    const margin = leastMargin(lines) ?? Number.NEGATIVE_INFINITY;
    const { name, must } = requirement;
    return { name, must, meets: margin >= 0, margin, lines, undecided: figures.undecided };
  }

  /** The least margin of lengths and joint angles alone, without proof; with free axes that of everything. */
  legMargin(requirement: Requirement, pieces: readonly Piece[]): number {
    if (pieces.some(hasFreeAxes)) return this.judgePieces(requirement, pieces, { prove: false, all: false }).margin;
    const lines = legLines(this.mechanism, this.legs.extremes(pieces, false), requirement.limits);
    return leastMargin(lines) ?? Number.NEGATIVE_INFINITY;
  }

  private figures(
    requirement: Requirement,
    settings: FigureSettings,
    pieces: readonly Piece[],
    { prove, all }: JudgeOptions,
  ) {
    const { mechanism, parts } = this;
    const { limits, clearance } = requirement;
    const asksClearance = all || limits.clearance !== undefined;
    const search = new FigureSearch(mechanism, settings, asksClearance ? clearance : null);
    const extremes = search.extremes(pieces, neededFigures(limits, all));
    const bound = prove && extremes.singular === null && pieces.every(canBound);
    const bounds = bound
      ? new FigureBounder(mechanism, settings).bounds(pieces, allowedBadness(requirement, extremes))
      : null;
    const lines = [...figureLines(mechanism, requirement, extremes, bounds, parts.springs !== null)];
    lines.push(...clearanceLine(mechanism, requirement, extremes, pieces, prove));
    return { lines, undecided: bounds?.undecided ?? null };
  }

  /** Legs that may spin cannot be judged without knowing the friction in their balls, which no design says. */
  private spinLine(): readonly TaskLine[] {
    const { freeSpin } = this.parts;
    if (freeSpin === null) return [];
    const none = { axis: null, asked: null, bound: null, limit: null, leg: null, pose: null };
    return [
      {
        ...none,
        quantity: 'freeSpin',
        margin: Number.NEGATIVE_INFINITY,
        counted: true,
        certainty: 'searched',
        note: freeSpin,
      },
    ];
  }
}

function clearanceLine(
  mechanism: Mechanism,
  requirement: Requirement,
  { clearance: seen }: FigureExtremes,
  pieces: readonly Piece[],
  prove: boolean,
): readonly TaskLine[] {
  if (!seen) return [];
  const limit = requirement.limits.clearance ?? null;
  const margin = limit === null ? null : marginAtLeast(seen.distance, limit, mechanism.legs.rodDiameter);
  const floor = limit ?? 0;
  const proven =
    prove && seen.distance >= floor && pieces.every((piece) => isClear(mechanism, requirement, piece, floor));
  return [
    {
      quantity: 'clearance',
      axis: null,
      asked: seen.distance,
      bound: proven ? floor : null,
      limit,
      margin,
      counted: true,
      leg: null,
      pose: seen.pose,
      certainty: proven ? 'proven' : 'searched',
      note: seen.between,
    },
  ];
}

/** Whether all bodies provably keep a distance over a box of poses. */
function isClear(mechanism: Mechanism, { clearance }: Requirement, piece: Piece, floor: number): boolean {
  if (piece.kind !== 'box' || piece.free.some(Boolean)) return false;
  const box = { centre: anglesFromNumbers(piece.centre), half: anglesFromNumbers(piece.half) };
  const options = { clearance, clearanceFloor: floor, boxes: CLEARANCE_BOXES };
  const decided = decideBox(mechanism, box, ['clear'], options);
  return decided.ok && decided.value.answers.every(({ answer }) => answer.answer === 'proven');
}
