import { largestLength } from '../kinematics/accuracy.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { invertInPlace } from '../math/inverse.ts';
import { POSE_NUMBERS } from '../reach/pose-box.ts';
import { EnclosedBox } from '../reach/prove/prove-claims.ts';
import { RegularClaim } from '../reach/prove/prove-regular.ts';
import type { Piece } from './piece.ts';
import { FIGURES, type FigureSettings, MORE_IS_WORSE, PoseFigures } from './pose-figures.ts';

/** What no pose of the pieces goes past, by interval bounds. */
export interface FigureBounds {
  /** No pose is singular. */
  readonly regular: boolean;
  /** Share of the pieces (0 to 1) in which that could not be told. */
  readonly undecided: number;
  /** In the order of FIGURES, turned so that more is worse; Infinity where nothing is known. */
  readonly badness: Float64Array;
}

/** Boxes of poses looked at for all pieces together: some tenth of a second. */
export const FIGURE_BOXES = 800;

/** Half ranges of angles that are enclosed in one go [rad]; wider ones are cut first. */
const WIDEST_HALF = Math.PI / 4;

/** Sums of a hundred positive numbers, each rounded. */
const SUM_ROUNDING = 1e-12;

/** A box of poses still to be looked at, with what was known of the box it is a part of. */
interface Part {
  readonly piece: Piece;
  readonly centre: Float64Array;
  readonly half: Float64Array;
  readonly share: number;
  readonly badness: Float64Array;
}

/**
 * Bounds the figures over whole pieces of poses, breadth first, until all are within what they may be or the boxes run out.
 *
 * On a box of poses, with C the inverse of the Jacobian in its middle and E = |C J - I| bounded entry by entry: if some
 * norm of E is below 1, no pose of the box is singular and `|J^-1 - C| <= (I - E)^-1 E |C|` (A. Neumaier, Interval Methods for Systems of
 * Equations, 1990: from memory). Tool error, forces, stiffness and firmness follow from C and that.
 */
export class FigureBounder {
  private readonly mechanism: Mechanism;
  private readonly settings: FigureSettings;
  private readonly figures: PoseFigures;
  private readonly box: EnclosedBox;
  private readonly regular = new RegularClaim();
  private readonly spread = new Float64Array(POSE_NUMBERS);
  private readonly rest = new Float64Array(36);
  private readonly D = new Float64Array(36);
  private readonly errors = new Float64Array(LEG_COUNT);

  constructor(mechanism: Mechanism, settings: FigureSettings) {
    this.mechanism = mechanism;
    this.settings = settings;
    this.figures = new PoseFigures(mechanism, settings);
    this.box = new EnclosedBox(mechanism);
  }

  /** @param allowed by figure, turned so that more is worse: a box that stays within all of them is not halved; Infinity: not asked */
  bounds(pieces: readonly Piece[], allowed: Float64Array, boxes = FIGURE_BOXES): FigureBounds {
    const worst = new Float64Array(FIGURES.length).fill(Number.NEGATIVE_INFINITY);
    const queue: Part[] = pieces.flatMap((piece) => coveringParts(piece, 1 / pieces.length));
    let undecided = 0;
    let looked = 0;
    const settle = (badness: Float64Array) => {
      for (let n = 0; n < worst.length; n++) worst[n] = Math.max(worst[n], badness[n]);
    };
    for (let at = 0; at < queue.length; at++) {
      const part = queue[at];
      if (looked >= boxes) {
        if (part.badness[FIRMNESS] >= 0) undecided += part.share;
        settle(part.badness);
        continue;
      }
      if (isOutside(part)) continue;
      looked++;
      const badness = this.measure(part);
      if (badness.every((value, n) => value <= allowed[n]) && badness[FIRMNESS] < 0) {
        settle(badness);
        continue;
      }
      queue.push(...halves(part, this.mostUncertain(part), badness));
    }
    return { regular: undecided === 0 && worst[FIRMNESS] < 0, undecided, badness: worst };
  }

  /** Bounds on one box; all Infinity where it may hold a singular pose. */
  private measure({ centre, half }: Part): Float64Array {
    const { box, regular, figures, mechanism, spread, rest, D } = this;
    const badness = new Float64Array(FIGURES.length).fill(Number.POSITIVE_INFINITY);
    box.set(centre, half);
    if (!(regular.lowest(box, spread) > 0) || !figures.measure(box.pose)) return badness;
    // D = (I - E)^-1 E |C|
    const E = regular.A;
    const C = regular.inverse;
    for (let n = 0; n < 36; n++) rest[n] = (n % 7 === 0 ? 1 : 0) - E[n];
    if (invertInPlace(6, rest) === 0) return badness;
    for (let row = 0; row < 6; row++) {
      for (let leg = 0; leg < LEG_COUNT; leg++) {
        let sum = 0;
        for (let k = 0; k < 6; k++) sum += E[6 * row + k] * Math.abs(C[6 * k + leg]);
        D[6 * row + leg] = sum;
      }
    }
    this.multiplyInto(rest, D);
    const turn = half[3] + half[4] + half[5];
    badness.set([
      this.toolError(C, turn),
      this.stiffness(),
      ...this.forces(C, turn),
      this.firmness(E, mechanism.characteristicLength),
      Number.POSITIVE_INFINITY,
    ]);
    return badness;
  }

  /** D = M D for a matrix whose entries are at least 0 but for rounding. */
  private multiplyInto(M: Float64Array, D: Float64Array): void {
    const column = new Float64Array(6);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      for (let row = 0; row < 6; row++) {
        let sum = 0;
        for (let k = 0; k < 6; k++) sum += Math.max(M[6 * row + k], 0) * D[6 * k + leg];
        column[row] = sum * (1 + SUM_ROUNDING);
      }
      for (let row = 0; row < 6; row++) D[6 * row + leg] = column[row];
    }
  }

  /** |(C + X) e| <= |C e| + |D e|, e what the legs can be off by anywhere in the box. */
  private toolError(C: Float64Array, turn: number): number {
    const { errors, D, box, figures, settings } = this;
    errors.set(figures.errorsAt(box.pose));
    const { enclosure } = box;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const unit = enclosure.unit(leg);
      const { rad } = enclosure.registers;
      // a joint's share changes no faster than the leg's direction, as seen from its plate
      const sway = Math.hypot(rad[unit], rad[unit + 1], rad[unit + 2]);
      const { baseHole, baseSeat, platformHole, platformSeat } = settings.errors[leg];
      errors[leg] += (baseHole + baseSeat) * 2 * sway + (platformHole + platformSeat) * (2 * sway + turn);
    }
    const more = [0, 0, 0];
    for (let row = 0; row < 3; row++)
      for (let leg = 0; leg < LEG_COUNT; leg++) more[row] += D[6 * row + leg] * errors[leg];
    return (largestLength(C, 0, errors) + Math.hypot(more[0], more[1], more[2])) * (1 + SUM_ROUNDING);
  }

  /** 1/stiffness is the square of the norm of T = C_translation diag(k^-1/2); norms add. */
  private stiffness(): number {
    const { springs } = this.settings;
    if (!springs) return 0;
    let more = 0;
    for (let row = 0; row < 3; row++)
      for (let leg = 0; leg < LEG_COUNT; leg++) more += this.D[6 * row + leg] ** 2 / springs[leg];
    const own = Math.sqrt(-1 / this.figures.badness[1]);
    return -1 / ((own + Math.sqrt(more)) ** 2 * (1 + SUM_ROUNDING));
  }

  /** Largest push, largest pull and least push turned, each as bad as anywhere in the box. */
  private forces(C: Float64Array, turn: number): readonly [number, number, number] {
    const { D, settings, mechanism, figures } = this;
    const { load, push } = settings;
    // a balance pulls from a fixed point, so its force turns in a way that is not bounded here
    if (load.balances.length > 0) return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    const { wrench } = figures;
    const { centre, mass } = load.payload;
    const tool = mechanism.p_PoTo_P;
    const arm = Math.hypot(centre[0] - tool[0], centre[1] - tool[1], centre[2] - tool[2]);
    const swing = mass * Math.hypot(...load.gravity) * arm * turn;
    let mostPush = 0;
    let mostPull = 0;
    let leastPush = Number.NEGATIVE_INFINITY;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      let own = 0;
      let wide = 0;
      let moment = 0;
      let pushed = 0;
      let turned = 0;
      for (let row = 0; row < 6; row++) {
        const c = C[6 * row + leg];
        const d = D[6 * row + leg];
        own -= c * wrench[row];
        wide += d * Math.abs(wrench[row]);
        const most = (Math.abs(c) + d) ** 2;
        if (row < 3) pushed += most;
        else {
          turned += most;
          moment += most;
        }
      }
      const more = wide + swing * Math.sqrt(moment) + push.force * Math.sqrt(pushed) + push.torque * Math.sqrt(turned);
      const room = SUM_ROUNDING * (Math.abs(own) + more);
      mostPush = Math.max(mostPush, own + more + room);
      mostPull = Math.max(mostPull, more - own + room);
      leastPush = Math.max(leastPush, more - own + room);
    }
    return [mostPush, mostPull, leastPush];
  }

  /** J = J0 (I + X) with |X| <= E: the smallest singular value is at least that of J0 times 1 - |X|, rotations divided by the length. */
  private firmness(E: Float64Array, length: number): number {
    let rows = 0;
    let square = 0;
    const columns = new Float64Array(6);
    for (let row = 0; row < 6; row++) {
      let sum = 0;
      for (let column = 0; column < 6; column++) {
        const entry = (E[6 * row + column] * (row < 3 ? 1 : length)) / (column < 3 ? 1 : length);
        sum += entry;
        columns[column] += entry;
        square += entry * entry;
      }
      rows = Math.max(rows, sum);
    }
    const norm = Math.min(Math.sqrt(rows * Math.max(...columns)), Math.sqrt(square));
    // not even regularity says so where the norm is 1 or more: the smallest positive number stands for "above 0"
    return -this.figures.smallest * Math.max(1 - norm * (1 + SUM_ROUNDING), Number.EPSILON);
  }

  /** The pose number whose halving tells most. */
  private mostUncertain({ half }: Part): number {
    const { spread } = this;
    let best = half.indexOf(Math.max(...half.subarray(3)));
    if (best < 3) best = half.findIndex((entry) => entry > 0);
    let most = Number.NEGATIVE_INFINITY;
    for (let number = 0; number < POSE_NUMBERS; number++) {
      if (half[number] === 0 || !(spread[number] > most)) continue;
      most = spread[number];
      best = number;
    }
    return best;
  }
}

const FIRMNESS = FIGURES.indexOf('firmness');

/** Boxes of pose numbers that cover a piece, angles at most {@link WIDEST_HALF}; none where that is not known. */
function coveringParts(piece: Piece, share: number): readonly Part[] {
  const badness = new Float64Array(FIGURES.length).fill(Number.POSITIVE_INFINITY);
  const half = Float64Array.from(piece.half);
  // turned by `tilt` toward any side, a heading strays by at most asin(tan^2(tilt/2))
  if (piece.kind === 'round') half[5] += Math.asin(Math.min(Math.tan(half[3] / 2) ** 2, 1));
  let parts: Part[] = [{ piece, centre: piece.centre, half, share, badness }];
  for (let number = 3; number < POSE_NUMBERS; number++) {
    while (parts[0].half[number] > WIDEST_HALF) parts = parts.flatMap((part) => halves(part, number, badness));
  }
  return parts;
}

function halves(part: Part, number: number, badness: Float64Array): readonly Part[] {
  const half = Float64Array.from(part.half);
  half[number] /= 2;
  return [-1, 1].map((way) => {
    const centre = Float64Array.from(part.centre);
    centre[number] += way * half[number];
    return { piece: part.piece, centre, half, share: part.share / 2, badness };
  });
}

/** Whether a part of the box around a round piece holds no pose of the piece. */
function isOutside({ piece, centre, half }: Part): boolean {
  if (piece.kind === 'box') return false;
  let far = 0;
  for (let axis = 0; axis < 3; axis++) {
    const off = Math.abs(centre[axis] - piece.centre[axis]) - half[axis];
    if (off > 0) far += (off / piece.half[axis]) ** 2;
  }
  if (far > 1) return true;
  const least = (number: number) => Math.max(Math.abs(centre[number]) - half[number], 0);
  return Math.cos(least(3)) * Math.cos(least(4)) < Math.cos(piece.half[3]) - 1e-12;
}

/** Whether the bounds can be made for a piece: a round one only where its platform is level in the middle. */
export const canBound = ({ kind, centre, free }: Piece): boolean =>
  !free.some(Boolean) && (kind === 'box' || (centre[3] === 0 && centre[4] === 0));

/** The sign that turns a figure into its badness and back. */
export const turned = (n: number): 1 | -1 => (MORE_IS_WORSE[FIGURES[n]] ? 1 : -1);
