import type { Vec3 } from '../../math/vec3.ts';
import { type JointCentres, LEG_COUNT } from '../layout.ts';
import { firstBadLength } from './faults.ts';
import { FREEDOMS, LegEquations } from './leg-equations.ts';
import { layoutSize } from './normal-layout.ts';

/** Largest length error of a solved pose, relative to the layout's size; Newton's last step usually leaves 1e-15. */
export const RESIDUAL_TOLERANCE = 1e-10;
/** Newton's longest single step: this part of the layout's size, or this angle [rad]. Longer ones are scaled down. */
const LONGEST_STEP = 0.4;
const NEWTON_STEPS = 20;
/** Newton is given up when this many steps in a row have not made the error smaller. */
const PATIENCE = 4;
/** The careful way first moves the lengths this share from the guess's to the asked ones; then what proves possible. */
const FIRST_SHARE = 1 / 4;
const SMALLEST_SHARE = 1 / 65536;
/** Newton steps per share: from a small enough change four or five reach rounding. */
const CORRECTIONS = 5;
/**
 * The careful way is stopped by a singularity if the determinant has fallen to this part of the guess's. Near one it goes
 * with the square root of the way left, so the smallest share leaves 1/256.
 */
const VANISHING_SHARE = 0.05;

/** Determinants below this part of size^3 are rounding: six products of rounded numbers. A steady layout has about 1. */
const ON_SINGULARITY = 1e-13;

/** How {@link NearSolver.solve} ended. */
export type NearStatus = 'solved' | 'badLength' | 'impossibleLengths' | 'nearSingular' | 'notConverged';

/**
 * Live forward kinematics: the pose with six given lengths that is near a guess. Made once per layout; {@link solve}
 * allocates nothing and leaves its result in the fields.
 *
 * Newton on the leg lengths with a step limit. If that fails, or lands on the other side of a singularity, the lengths are
 * moved there in small shares instead, each followed without letting the determinant change sign.
 */
export class NearSolver {
  /** Of the last solved pose: p_BoTo_B and the unit quaternion w, x, y, z and R_BP, row-major. */
  readonly position = new Float64Array(3);
  readonly quaternion = new Float64Array(4);
  readonly R = new Float64Array(9);
  residual = 0;
  determinant = 0;
  assemblyChanged = false;
  iterations = 0;
  /** Legs (1 to 6) that an `impossibleLengths` or `badLength` is about. */
  firstLeg = 0;
  secondLeg = 0;

  private readonly size: number;
  private readonly equations: LegEquations;
  private readonly guess: LegEquations;
  private readonly landed: LegEquations;
  private readonly lastGood: LegEquations;
  private readonly twist = new Float64Array(FREEDOMS);
  private readonly aim = new Float64Array(LEG_COUNT);
  private readonly baseGaps = new Float64Array(LEG_COUNT * LEG_COUNT);
  private readonly platformGaps = new Float64Array(LEG_COUNT * LEG_COUNT);

  /** @param tool p_PoTo_P, the point whose position guesses and results give. One length unit throughout. */
  constructor(centres: JointCentres, tool: Vec3 = [0, 0, 0]) {
    this.size = layoutSize(centres);
    this.equations = new LegEquations(centres, tool);
    this.guess = new LegEquations(centres, tool);
    this.landed = new LegEquations(centres, tool);
    this.lastGood = new LegEquations(centres, tool);
    writeGaps(centres.base, this.baseGaps);
    writeGaps(centres.platform, this.platformGaps);
  }

  /**
   * @param lengths six, pin to pin
   * @param position guessed p_BoTo_B
   * @param quaternion guessed rotation, w, x, y, z, of any non-zero length
   */
  solve(lengths: ArrayLike<number>, position: ArrayLike<number>, quaternion: ArrayLike<number>): NearStatus {
    this.iterations = 0;
    this.residual = Number.POSITIVE_INFINITY;
    this.firstLeg = firstBadLength(lengths);
    if (this.firstLeg > 0) return 'badLength';
    if (this.findImpossiblePair(lengths)) return 'impossibleLengths';
    this.guess.place(position, quaternion);
    this.guess.evaluate();
    const startSide = this.sideOf(this.guess.factor());

    this.equations.placeLike(this.guess);
    const direct = this.newton(lengths, NEWTON_STEPS);
    const directDeterminant = direct ? this.equations.factor() : 0;
    if (direct && this.sideOf(directDeterminant) !== -startSide) return this.keep(directDeterminant, startSide);
    this.landed.placeLike(this.equations);
    const landedError = this.residual;

    const careful = this.followLengths(lengths, startSide);
    if (careful === 'solved') return this.keep(this.equations.factor(), startSide);
    this.residual = landedError;
    if (!direct) return careful;
    this.equations.placeLike(this.landed);
    return this.keep(directDeterminant, startSide);
  }

  /** Side of a singularity by the sign of a determinant [length^3]; 0 on it. */
  private sideOf(determinant: number): number {
    return Math.abs(determinant) > ON_SINGULARITY * this.size ** 3 ? Math.sign(determinant) : 0;
  }

  private keep(determinant: number, startSide: number): NearStatus {
    const { equations } = this;
    this.position.set(equations.position);
    this.quaternion.set(equations.quaternion);
    this.R.set(equations.R);
    this.determinant = determinant;
    this.assemblyChanged = this.sideOf(determinant) * startSide < 0;
    return 'solved';
  }

  /** Newton from where the equations stand; leaves them evaluated at the end. */
  private newton(lengths: ArrayLike<number>, limit: number): boolean {
    const { equations, twist, size } = this;
    let best = Number.POSITIVE_INFINITY;
    let idle = 0;
    for (let step = 0; ; step++) {
      equations.evaluate();
      const error = equations.writeMissing(lengths, twist);
      this.residual = error;
      if (error <= RESIDUAL_TOLERANCE * size) return true;
      idle = error < best ? 0 : idle + 1;
      best = Math.min(best, error);
      if (step === limit || idle === PATIENCE || !(error < Number.POSITIVE_INFINITY)) return false;
      if (equations.factor() === 0) return false;
      equations.twistFor(twist);
      equations.advance(twist, this.stepShare());
      this.iterations++;
    }
  }

  /** The part of the twist that keeps within the longest step. */
  private stepShare(): number {
    const { twist, size } = this;
    const move = Math.hypot(twist[0], twist[1], twist[2]) / size;
    const turn = Math.hypot(twist[3], twist[4], twist[5]);
    const longest = Math.max(move, turn);
    return longest > LONGEST_STEP ? LONGEST_STEP / longest : 1;
  }

  /** Moves the lengths from the guess's to the asked ones in shares, keeping the determinant's sign. */
  private followLengths(lengths: ArrayLike<number>, startSide: number): NearStatus {
    const { equations, guess, lastGood, aim } = this;
    if (startSide === 0) return 'nearSingular';
    const startDeterminant = guess.factor();
    equations.placeLike(guess);
    lastGood.placeLike(guess);
    let determinant = startDeterminant;
    let done = 0;
    let share = FIRST_SHARE;
    while (done < 1) {
      const next = Math.min(1, done + share);
      for (let leg = 0; leg < LEG_COUNT; leg++)
        aim[leg] = guess.lengths[leg] + next * (lengths[leg] - guess.lengths[leg]);
      const there = this.newton(aim, CORRECTIONS) ? equations.factor() : 0;
      if (there * startSide > 0) {
        determinant = there;
        lastGood.placeLike(equations);
        done = next;
        share *= 2;
        continue;
      }
      equations.placeLike(lastGood);
      share /= 2;
      if (share < SMALLEST_SHARE) {
        return Math.abs(determinant) < VANISHING_SHARE * Math.abs(startDeterminant) ? 'nearSingular' : 'notConverged';
      }
    }
    return 'solved';
  }

  /**
   * Necessary for any pose: base joints i, j and platform joints i, j are the corners of a four-bar loop, so no side of
   * it may be longer than the other three together.
   */
  private findImpossiblePair(lengths: ArrayLike<number>): boolean {
    const slack = RESIDUAL_TOLERANCE * this.size;
    for (let i = 0; i < LEG_COUNT; i++) {
      for (let j = 0; j < i; j++) {
        const a = this.baseGaps[LEG_COUNT * i + j];
        const b = this.platformGaps[LEG_COUNT * i + j];
        const k = lengths[i];
        const l = lengths[j];
        const longest = Math.max(a, b, k, l);
        if (2 * longest <= a + b + k + l + slack) continue;
        this.firstLeg = j + 1;
        this.secondLeg = i + 1;
        return true;
      }
    }
    return false;
  }
}

function writeGaps(points: Float64Array, gaps: Float64Array): void {
  for (let i = 0; i < LEG_COUNT; i++) {
    for (let j = 0; j < LEG_COUNT; j++) {
      const x = points[3 * i] - points[3 * j];
      const y = points[3 * i + 1] - points[3 * j + 1];
      const z = points[3 * i + 2] - points[3 * j + 2];
      gaps[LEG_COUNT * i + j] = Math.sqrt(x * x + y * y + z * z);
    }
  }
}
