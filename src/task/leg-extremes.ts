import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { POSE_NUMBERS } from '../reach/pose-box.ts';
import { type JointMeasure, jointMeasures, legAngle } from './joint-measures.ts';
import { type LegClaim, noFarther, noLonger, noShorter } from './leg-claims.ts';
import { clampShares, type MutablePose, newPose, type Piece, PieceMap } from './piece.ts';
import { ClaimProver } from './prove-claims.ts';
import { climb, latticeShares, varyingAxes } from './shares.ts';

/** A worst value over a region: where, of which leg, and what no pose of the region goes past. */
export interface Extreme {
  /** Attained at the pose, to rounding. */
  readonly value: number;
  /** No pose of the region goes past this, by a proof; null where none was made. */
  readonly bound: number | null;
  /** 1 to 6. */
  readonly leg: number;
  readonly pose: PoseAngles;
}

/** Where a search over one piece ended, by quantity: where a search over a piece of nearly the same size can begin. */
export interface Seed {
  readonly leg: number;
  readonly shares: Float64Array;
}

export type Seeds = readonly (readonly Seed[])[];

/** Worst lengths [mm] and joint angles [rad] over a region. */
export interface LegExtremes {
  /** By piece and quantity. */
  readonly seeds: Seeds;
  readonly shortest: Extreme;
  readonly longest: Extreme;
  /** In the order of {@link jointMeasures}. */
  readonly joints: readonly { readonly measure: JointMeasure; readonly extreme: Extreme }[];
}

/** What a bound may lie beyond the value that is attained: lengths as a share of the layout's size, 0.01 mm of 100 mm. */
export const LENGTH_TIGHTNESS = 1e-4;

/** The same of angles [rad]: 0.01 deg. */
export const ANGLE_TIGHTNESS = (0.01 * Math.PI) / 180;

/** Times a proof is begun anew from a worse pose that it met: each one is a climb's failure, and two have never been needed. */
const RESTARTS = 12;

/** Cells allowed for one proof. Of a round piece fewer: where its ellipsoid is not a ball a bound on a tilt may not close at all. */
const BOX_CELLS = 20_000;
const ROUND_CELLS = 8_000;

/** A quantity of one leg whose largest value is wanted, and the claims that no leg goes past a value. */
interface Wanted {
  /** @param x of the vector from the leg's base joint to its platform joint, base axes; y and z likewise. @param R R_BP */
  value(leg: number, x: number, y: number, z: number, R: Float64Array): number;
  /** Null where there is nothing that could be proven. */
  claims(value: number): readonly LegClaim[] | null;
  readonly tightness: number;
}

/** The worst found so far of one quantity. */
interface Found {
  value: number;
  leg: number;
  readonly shares: Float64Array;
}

const copyOf = ({ leg, shares }: Seed): Found => ({ value: 0, leg, shares: Float64Array.from(shares) });

/** Worst lengths and joint angles of a mechanism over pieces of poses, found by search and closed off by a proof. */
export class LegSearch {
  readonly measures: readonly JointMeasure[];
  private readonly mechanism: Mechanism;
  private readonly wanted: readonly Wanted[];
  private readonly pose = newPose();

  constructor(mechanism: Mechanism) {
    this.mechanism = mechanism;
    this.measures = jointMeasures(mechanism);
    const tight = LENGTH_TIGHTNESS * mechanism.size;
    this.wanted = [
      { value: (_leg, x, y, z) => -norm(x, y, z), claims: (value) => noShorter(-value), tightness: tight },
      { value: (_leg, x, y, z) => norm(x, y, z), claims: noLonger, tightness: tight },
      ...this.measures.map((measure) => ({
        value: (leg: number, x: number, y: number, z: number, R: Float64Array) => legAngle(measure, leg, R, x, y, z),
        claims: (value: number) => noFarther(measure, value),
        tightness: ANGLE_TIGHTNESS,
      })),
    ];
  }

  /**
   * @param prove whether bounds are wanted too
   * @param seeds where to begin instead of looking all over, of an earlier search
   */
  extremes(pieces: readonly Piece[], prove: boolean, seeds?: Seeds): LegExtremes {
    const perPiece = pieces.map((piece, n) => this.pieceExtremes(piece, prove, seeds?.[n]));
    const [shortest, longest, ...joints] = this.wanted.map((_, n) =>
      worstOf(perPiece.map(({ extremes }) => extremes[n])),
    );
    return {
      seeds: perPiece.map(({ found }) => found),
      shortest: negated(shortest),
      longest,
      joints: this.measures.map((measure, n) => ({ measure, extreme: joints[n] })),
    };
  }

  /**
   * Worst over the six legs at one pose, by quantity: shortest length turned (so that more is worse), longest length, joint
   * angles in the order of {@link jointMeasures}.
   */
  writeWorst(pose: MutablePose, worst: Float64Array): void {
    worst.fill(Number.NEGATIVE_INFINITY);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      this.writeVector(leg, pose);
      for (let n = 0; n < this.wanted.length; n++) {
        const value = this.wanted[n].value(leg, this.x, this.y, this.z, pose.R_BP);
        if (value > worst[n]) worst[n] = value;
      }
    }
  }

  private pieceExtremes(piece: Piece, prove: boolean, seeds?: readonly Seed[]) {
    const map = new PieceMap(piece);
    const found = seeds ? seeds.map(copyOf) : this.lattice(piece, map);
    const axes = varyingAxes(piece);
    const prover = prove ? new ClaimProver(this.mechanism, piece) : null;
    const extremes = this.wanted.map((wanted, n): Extreme => {
      const best = found[n];
      this.climbFrom(piece, map, axes, wanted, best);
      const bound = prover ? this.close(prover, piece, map, axes, wanted, best) : null;
      return { value: best.value, bound, leg: best.leg + 1, pose: map.angles(best.shares) };
    });
    return { found, extremes };
  }

  /** The worst of every quantity over the lattice of a piece. */
  private lattice(piece: Piece, map: PieceMap): readonly Found[] {
    const { wanted, pose } = this;
    const found = wanted.map(
      (): Found => ({
        value: Number.NEGATIVE_INFINITY,
        leg: 0,
        shares: new Float64Array(POSE_NUMBERS),
      }),
    );
    const lattice = latticeShares(piece);
    for (let at = 0; at < lattice.length; at += POSE_NUMBERS) {
      const shares = lattice.subarray(at, at + POSE_NUMBERS);
      map.write(shares, pose);
      for (let leg = 0; leg < LEG_COUNT; leg++) {
        this.writeVector(leg, pose);
        for (let n = 0; n < wanted.length; n++) {
          const best = found[n];
          const value = wanted[n].value(leg, this.x, this.y, this.z, pose.R_BP);
          if (value <= best.value) continue;
          best.value = value;
          best.leg = leg;
          best.shares.set(shares);
        }
      }
    }
    return found;
  }

  private climbFrom(piece: Piece, map: PieceMap, axes: readonly number[], wanted: Wanted, best: Found): void {
    const { pose } = this;
    const { leg } = best;
    best.value = climb(piece, best.shares, axes, (shares) => {
      map.write(shares, pose);
      this.writeVector(leg, pose);
      return wanted.value(leg, this.x, this.y, this.z, pose.R_BP);
    });
  }

  /** Proves that nothing is worse than what was found, starting over from worse poses it meets; null when it cannot. */
  private close(
    prover: ClaimProver,
    piece: Piece,
    map: PieceMap,
    axes: readonly number[],
    wanted: Wanted,
    best: Found,
  ): number | null {
    if (axes.length === 0) return best.value;
    let tightness = wanted.tightness;
    for (let round = 0; round < RESTARTS; round++) {
      const bound = best.value + tightness;
      const claims = wanted.claims(bound);
      if (!claims) return null;
      const outcome = prover.prove(claims, piece.kind === 'box' ? BOX_CELLS : ROUND_CELLS);
      if (outcome.kind === 'proven') return bound;
      if (outcome.kind === 'open') {
        if (tightness > wanted.tightness) return null;
        tightness *= LOOSER;
        continue;
      }
      best.leg = outcome.leg;
      best.shares.set(sharesOf(piece, outcome.position, outcome.rotation));
      clampShares(piece, best.shares);
      this.climbFrom(piece, map, axes, wanted, best);
    }
    return null;
  }

  private x = 0;
  private y = 0;
  private z = 0;

  private writeVector(leg: number, { R_BP: R, p_BoTo_B: t }: MutablePose): void {
    const { p_ToBi_P: b, centres } = this.mechanism;
    const a = centres.base;
    const i = 3 * leg;
    this.x = t[0] - a[i] + R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2];
    this.y = t[1] - a[i + 1] + R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2];
    this.z = t[2] - a[i + 2] + R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2];
  }
}

const norm = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);

/** A bound that cannot be closed at a hundredth is tried once more at this many. */
const LOOSER = 30;

function worstOf(extremes: readonly Extreme[]): Extreme {
  const worst = extremes.reduce((best, one) => (one.value > best.value ? one : best));
  const bounds = extremes.map(({ bound }) => bound);
  const known = bounds.filter((bound) => bound !== null);
  return { ...worst, bound: known.length === bounds.length ? Math.max(...known) : null };
}

const negated = ({ value, bound, ...rest }: Extreme): Extreme => ({
  ...rest,
  value: -value,
  bound: bound === null ? null : -bound,
});

/** Shares of a pose of the piece, from its position and the numbers of its rotation chart. */
function sharesOf({ kind, centre, half }: Piece, position: Float64Array, u: Float64Array): Float64Array {
  const shares = new Float64Array(POSE_NUMBERS);
  const share = (off: number, size: number) => (size > 0 ? off / size : 0);
  for (let axis = 0; axis < 3; axis++) shares[axis] = share(position[axis] - centre[axis], half[axis]);
  if (kind === 'box') {
    for (let n = 3; n < POSE_NUMBERS; n++) shares[n] = share(u[n - 3] - centre[n], half[n]);
    return shares;
  }
  const tilt = share(u[1], half[3]);
  shares[3] = tilt * Math.cos(u[0]);
  shares[4] = tilt * Math.sin(u[0]);
  shares[5] = share(u[2], half[5]);
  return shares;
}
