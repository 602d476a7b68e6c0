import { poseBodies, SmallestClearance } from '../kinematics/clearance.ts';
import { clearanceModel } from '../kinematics/clearance-pairs.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { POSE_NUMBERS } from '../reach/pose-box.ts';
import { FIGURE_ROWS } from './figure-lines.ts';
import type { LegSearch } from './leg-extremes.ts';
import { angleLimit, lengthLimits } from './leg-lines.ts';
import { marginAtLeast, marginAtMost } from './margin.ts';
import { newPose, type Piece, PieceMap, posePiece } from './piece.ts';
import { FIGURES, type FigureSettings, PoseFigures } from './pose-figures.ts';
import type { Requirement } from './requirement.ts';
import { climb, latticeShares, varyingAxes } from './shares.ts';

/** Shares of a free axis from which the best value is climbed to, besides the middle: so the best is never below that. */
const STARTS = [-1, -0.5, 0.5, 1];

/** Last steps of the climbs to the best free value and to the worst pose: a thousandth of a range. */
const LAST_FREE_STEP = 2e-3;
const LAST_WORST_STEP = 2e-3;

/** Worst places of the lattice that a climb starts from. */
const WORST_STARTS = 2;

/** The least margin of a requirement at single poses. */
export class PoseMargins {
  private readonly mechanism: Mechanism;
  private readonly requirement: Requirement;
  private readonly legs: LegSearch;
  private readonly figures: PoseFigures;
  private readonly clearance: SmallestClearance | null;
  private readonly worst: Float64Array;
  private readonly pose = newPose();

  constructor(mechanism: Mechanism, requirement: Requirement, legs: LegSearch, settings: FigureSettings) {
    this.mechanism = mechanism;
    this.requirement = requirement;
    this.legs = legs;
    this.figures = new PoseFigures(mechanism, settings);
    const asked = requirement.limits.clearance !== undefined;
    this.clearance = asked ? new SmallestClearance(clearanceModel(mechanism, requirement.clearance)) : null;
    this.worst = new Float64Array(2 + legs.measures.length);
  }

  /** -Infinity at a singular pose. */
  at(map: PieceMap, shares: Float64Array): number {
    const { pose, worst, legs, figures, requirement, mechanism } = this;
    const { limits } = requirement;
    map.write(shares, pose);
    legs.writeWorst(pose, worst);
    const { stroke, least, most } = lengthLimits(mechanism, limits);
    let margin = Math.min(marginAtLeast(-worst[0], least, stroke), marginAtMost(worst[1], most, stroke));
    legs.measures.forEach((measure, n) => {
      margin = Math.min(margin, marginAtMost(worst[2 + n], angleLimit(measure, limits)));
    });
    if (!figures.measure(pose)) return Number.NEGATIVE_INFINITY;
    for (const row of FIGURE_ROWS) {
      const limit = limits[row.limit];
      if (limit === undefined) continue;
      const badness = figures.badness[FIGURES.indexOf(row.figure)];
      margin = Math.min(margin, row.margin(row.better === 'less' ? badness : -badness, limit, requirement));
    }
    if (this.clearance && limits.clearance !== undefined) {
      poseBodies(this.clearance.model, pose);
      margin = Math.min(margin, marginAtLeast(this.clearance.now(), limits.clearance, mechanism.legs.rodDiameter));
    }
    return margin;
  }
}

/**
 * Poses that stand for a piece with free axes: at each place asked for, the free value at which the least margin is largest; and the
 * worst such place that a climb finds. The lines of a requirement are those of these poses.
 */
export function chosenPoses(piece: Piece, margins: PoseMargins): readonly Piece[] {
  const map = new PieceMap(piece);
  const asked = varyingAxes(piece);
  const free = varyingAxes(piece, true);
  const best = new Float64Array(POSE_NUMBERS);
  const trial = new Float64Array(POSE_NUMBERS);
  const choose = (shares: Float64Array): number => {
    best.set(shares);
    for (const axis of free) best[axis] = 0;
    let most = margins.at(map, best);
    for (const axis of free) {
      for (const start of STARTS) {
        trial.set(shares);
        for (const other of free) trial[other] = 0;
        trial[axis] = start;
        const value = margins.at(map, trial);
        if (value <= most) continue;
        most = value;
        best.set(trial);
      }
    }
    return climb(piece, best, free, (at) => margins.at(map, at), LAST_FREE_STEP);
  };
  const fixed: Piece = { ...piece, half: piece.half.map((half, n) => (piece.free[n] ? 0 : half)) };
  const lattice = latticeShares(fixed);
  const places: { readonly margin: number; readonly shares: Float64Array; readonly chosen: Float64Array }[] = [];
  for (let at = 0; at < lattice.length; at += POSE_NUMBERS) {
    const shares = lattice.slice(at, at + POSE_NUMBERS);
    const margin = choose(shares);
    places.push({ margin, shares, chosen: Float64Array.from(best) });
  }
  places.sort((a, b) => a.margin - b.margin);
  for (const { shares } of places.slice(0, WORST_STARTS)) {
    const worst = Float64Array.from(shares);
    climb(piece, worst, asked, (at) => -choose(at), LAST_WORST_STEP);
    const margin = choose(worst);
    places.push({ margin, shares: worst, chosen: Float64Array.from(best) });
  }
  return places.map(({ chosen }) => posePiece(map.angles(chosen)));
}
