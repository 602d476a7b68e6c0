import { poseBodies, SmallestClearance } from '../kinematics/clearance.ts';
import { type ClearanceModel, clearanceModel } from '../kinematics/clearance-pairs.ts';
import type { ClearanceSpec } from '../kinematics/keep-out.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { nearestPair } from '../kinematics/nearest-pair.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { POSE_NUMBERS } from '../reach/pose-box.ts';
import { type MutablePose, newPose, type Piece, PieceMap } from './piece.ts';
import { FIGURES, type FigureSettings, PoseFigures } from './pose-figures.ts';
import { climb, latticeShares, varyingAxes } from './shares.ts';

/** The worst of one figure over a region. */
export interface FigureExtreme {
  /** Turned so that more is worse. */
  readonly badness: number;
  /** 1 to 6; null where no leg is to blame. */
  readonly leg: number | null;
  readonly pose: PoseAngles;
}

/** Worst figures over a region, found by search. */
export interface FigureExtremes {
  /** In the order of FIGURES; null for those not asked for. */
  readonly figures: readonly (FigureExtreme | null)[];
  /** Smallest distance of two bodies [mm]; null when not asked for, or when nothing can meet. */
  readonly clearance: { readonly distance: number; readonly between: string; readonly pose: PoseAngles } | null;
  /** A pose at which the legs are not independent; null when none was found. */
  readonly singular: PoseAngles | null;
}

/** Places of the lattice that a climb starts from: the worst ones of each figure. */
const STARTS = 3;

/** The same of the clearance, whose worst pose is the meeting of many pairs' own. */
const CLEARANCE_STARTS = 6;

/** Last step of a climb as a share of the piece: a figure's worst is flat or a kink, a millionth beside it means nothing. */
const LAST_STEP = 1e-6;

/** Halvings between poses on either side of a singular one. */
const BISECTIONS = 50;

/** Worst places met so far, worst first. */
interface Ranking {
  readonly values: Float64Array;
  readonly shares: readonly Float64Array[];
}

const newRanking = (length: number): Ranking => ({
  values: new Float64Array(length).fill(Number.NEGATIVE_INFINITY),
  shares: Array.from({ length }, () => new Float64Array(POSE_NUMBERS)),
});

function offer({ values, shares }: Ranking, value: number, at: Float64Array): void {
  let place = values.length - 1;
  if (!(value > values[place])) return;
  for (; place > 0 && value > values[place - 1]; place--) {
    values[place] = values[place - 1];
    shares[place].set(shares[place - 1]);
  }
  values[place] = value;
  shares[place].set(at);
}

/** Worst figures of a mechanism over pieces of poses. */
export class FigureSearch {
  private readonly figures: PoseFigures;
  private readonly clearance: SmallestClearance | null;
  private readonly model: ClearanceModel | null;
  private readonly pose: MutablePose = newPose();

  /** @param clearance null: not asked for */
  constructor(mechanism: Mechanism, settings: FigureSettings, clearance: ClearanceSpec | null) {
    this.figures = new PoseFigures(mechanism, settings);
    this.model = clearance ? clearanceModel(mechanism, clearance) : null;
    this.clearance = this.model ? new SmallestClearance(this.model) : null;
  }

  /** @param asked by figure, whether its worst is wanted */
  extremes(pieces: readonly Piece[], asked: readonly boolean[]): FigureExtremes {
    const perPiece = pieces.map((piece) => this.pieceExtremes(piece, asked));
    const nearest = perPiece.flatMap(({ clearance }) => (clearance ? [clearance] : []));
    return {
      figures: asked.map((_, n) =>
        perPiece.reduce<FigureExtreme | null>((worst, { figures }) => {
          const one = figures[n];
          return one && (!worst || one.badness > worst.badness) ? one : worst;
        }, null),
      ),
      clearance: nearest.length > 0 ? nearest.reduce((best, one) => (one.distance < best.distance ? one : best)) : null,
      singular: perPiece.find(({ singular }) => singular !== null)?.singular ?? null,
    };
  }

  private pieceExtremes(piece: Piece, asked: readonly boolean[]): FigureExtremes {
    const map = new PieceMap(piece);
    const lattice = latticeShares(piece);
    const rankings = asked.map(() => newRanking(STARTS));
    const sides = newRanking(1);
    const near = newRanking(CLEARANCE_STARTS);
    const middle = new Float64Array(POSE_NUMBERS);
    const sign = this.signAt(map, middle);
    let singular: Float64Array | null = sign === 0 ? middle : null;
    for (let at = 0; at < lattice.length; at += POSE_NUMBERS) {
      const shares = lattice.subarray(at, at + POSE_NUMBERS);
      const regular = this.measure(map, shares);
      if (!regular) singular ??= shares.slice();
      for (let n = 0; n < asked.length; n++) if (asked[n]) offer(rankings[n], this.figures.badness[n], shares);
      offer(sides, -sign * this.figures.determinant, shares);
      if (this.clearance) offer(near, -this.distance(), shares);
    }
    const axes = varyingAxes(piece);
    singular ??= this.across(piece, map, axes, sign, sides.shares[0], sides.values[0]);
    return {
      figures: asked.map((wanted, n) => (wanted ? this.climbFigure(piece, map, axes, n, rankings[n]) : null)),
      clearance: this.clearance ? this.climbClearance(piece, map, axes, near) : null,
      singular: singular && map.angles(singular),
    };
  }

  private measure(map: PieceMap, shares: Float64Array): boolean {
    map.write(shares, this.pose);
    return this.figures.measure(this.pose);
  }

  private signAt(map: PieceMap, shares: Float64Array): number {
    return this.measure(map, shares) ? Math.sign(this.figures.determinant) : 0;
  }

  /** Smallest clearance at the pose last written. */
  private distance(): number {
    const { clearance, model } = this;
    if (!clearance || !model) return Number.POSITIVE_INFINITY;
    poseBodies(model, this.pose);
    return clearance.now();
  }

  private climbFigure(
    piece: Piece,
    map: PieceMap,
    axes: readonly number[],
    n: number,
    { values, shares }: Ranking,
  ): FigureExtreme {
    let best = Number.NEGATIVE_INFINITY;
    let place = shares[0];
    for (let start = 0; start < STARTS; start++) {
      if (values[start] === Number.NEGATIVE_INFINITY) break;
      const reached = climb(
        piece,
        shares[start],
        axes,
        (at) => {
          this.measure(map, at);
          return this.figures.badness[n];
        },
        LAST_STEP,
      );
      if (!(reached > best)) continue;
      best = reached;
      place = shares[start];
    }
    this.measure(map, place);
    const leg = n >= PUSH && n < PUSH + 3 ? this.figures.legs[n - PUSH] + 1 : null;
    return { badness: best, leg, pose: map.angles(place) };
  }

  private climbClearance(piece: Piece, map: PieceMap, axes: readonly number[], { values, shares }: Ranking) {
    let best = Number.NEGATIVE_INFINITY;
    let place = shares[0];
    for (let start = 0; start < CLEARANCE_STARTS; start++) {
      if (values[start] === Number.NEGATIVE_INFINITY) break;
      const reached = climb(
        piece,
        shares[start],
        axes,
        (at) => {
          map.write(at, this.pose);
          return -this.distance();
        },
        LAST_STEP,
      );
      if (!(reached > best)) continue;
      best = reached;
      place = shares[start];
    }
    if (best === Number.NEGATIVE_INFINITY || !this.model) return null;
    map.write(place, this.pose);
    poseBodies(this.model, this.pose);
    const pair = nearestPair(this.model, -best);
    return { distance: -best, between: pair ? `${pair.a}, ${pair.b}` : '', pose: map.angles(place) };
  }

  /**
   * A singular pose between the middle and a pose across it, where the determinant has the other sign; null when no such pose is
   * found. Pieces are convex in their shares, so the straight way between the two stays within.
   */
  private across(
    piece: Piece,
    map: PieceMap,
    axes: readonly number[],
    sign: number,
    start: Float64Array,
    value: number,
  ): Float64Array | null {
    let most = value;
    if (most < 0) {
      most = climb(
        piece,
        start,
        axes,
        (at) => {
          this.measure(map, at);
          return -sign * this.figures.determinant;
        },
        LAST_STEP,
      );
    }
    if (most < 0) return null;
    const low = new Float64Array(POSE_NUMBERS);
    const high = Float64Array.from(start);
    const middle = new Float64Array(POSE_NUMBERS);
    for (let step = 0; step < BISECTIONS; step++) {
      for (let n = 0; n < POSE_NUMBERS; n++) middle[n] = (low[n] + high[n]) / 2;
      (this.signAt(map, middle) === sign ? low : high).set(middle);
    }
    return high;
  }
}

const PUSH = FIGURES.indexOf('push');
