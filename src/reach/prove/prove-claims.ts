import { writeJacobian } from '../../kinematics/jacobian.ts';
import type { DirectionBound } from '../../kinematics/joint-shapes.ts';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { POSE_NUMBERS, poseFromNumbers } from '../pose-box.ts';
import { LegEnclosure } from './prove-legs.ts';

/** Which question a claim belongs to. */
export type Question = 'reachable' | 'regular' | 'clear';

/** What can be asked of a box, in the order in which reports list it. */
export const PROOF_QUESTIONS: readonly Question[] = ['reachable', 'regular', 'clear'];

/**
 * Something that has to hold at every pose of a box. A claim is a number that must not fall below zero; over a box it is
 * bounded by its value at the centre less how far each pose number can change it.
 */
export interface Claim {
  readonly question: Question;
  /**
   * A number that the claim's value cannot fall below in the box; negative when it cannot be told.
   * @param spread receives how much each of the six pose numbers contributes to the uncertainty
   */
  lowest(box: EnclosedBox, spread: Float64Array): number;
}

/**
 * Values at a box's centre are computed in plain double precision. Their rounding is some 1e-15 of the coordinates that
 * go into them; this leaves three orders of room. Relative to the size of the numbers involved.
 */
export const CENTRE_ROUNDING = 1e-12;

/** Parts of a box are enlarged by this share of their numbers: their middles carry up to thirty rounding errors. */
const OVERLAP = 64 * Number.EPSILON;

/** A box of poses with everything about it that claims share. */
export class EnclosedBox {
  readonly mechanism: Mechanism;
  readonly enclosure: LegEnclosure;
  readonly centre = new Float64Array(POSE_NUMBERS);
  readonly half = new Float64Array(POSE_NUMBERS);
  /** At the centre. */
  pose: Pose;
  readonly J = new Float64Array(36);
  readonly vectors = new Float64Array(3 * LEG_COUNT);
  readonly lengths = new Float64Array(LEG_COUNT);

  constructor(mechanism: Mechanism) {
    this.mechanism = mechanism;
    this.enclosure = new LegEnclosure(mechanism);
    this.pose = mechanism.home;
  }

  set(centre: Float64Array, half: Float64Array): void {
    this.centre.set(centre);
    // halves of halves meet only to rounding; overlapping a little, they surely cover the whole
    for (let number = 0; number < POSE_NUMBERS; number++)
      this.half[number] = half[number] + OVERLAP * (Math.abs(centre[number]) + half[number]);
    this.pose = poseFromNumbers(centre);
    writeJacobian(this.mechanism, this.pose, this.J, this.vectors, this.lengths);
    this.enclosure.enclose(this.centre, this.half);
  }

  /** u of a leg at the centre. */
  unit(leg: number): Vec3 {
    return [this.J[6 * leg], this.J[6 * leg + 1], this.J[6 * leg + 2]];
  }

  /** Size of the coordinates that lengths are computed from [mm]. */
  get scale(): number {
    const [x, y, z] = this.pose.p_BoTo_B;
    return this.mechanism.size + Math.abs(x) + Math.abs(y) + Math.abs(z) + Math.hypot(...this.mechanism.p_PoTo_P);
  }
}

const total = (spread: Float64Array): number => spread.reduce((sum, entry) => sum + entry, 0);

/** The leg is no shorter than the shortest, or no longer than the longest. */
export class LengthClaim implements Claim {
  readonly question = 'reachable';
  readonly leg: number;
  readonly end: 'min' | 'max';

  constructor(leg: number, end: 'min' | 'max') {
    this.leg = leg;
    this.end = end;
  }

  lowest(box: EnclosedBox, spread: Float64Array): number {
    const { enclosure, half, lengths, mechanism } = box;
    const { leg, end } = this;
    for (let number = 0; number < POSE_NUMBERS; number++)
      spread[number] = half[number] * enclosure.registers.magnitude(enclosure.lengthBy(leg, number));
    const room = end === 'min' ? lengths[leg] - mechanism.legs.min : mechanism.legs.max - lengths[leg];
    return room - total(spread) - CENTRE_ROUNDING * box.scale;
  }
}

/** The leg's direction keeps within one bound of one of its joints: `w . d >= least`. */
export class DirectionClaim implements Claim {
  readonly question = 'reachable';
  readonly leg: number;
  readonly plate: PlateName;
  readonly bound: DirectionBound;

  constructor(leg: number, plate: PlateName, bound: DirectionBound) {
    this.leg = leg;
    this.plate = plate;
    this.bound = bound;
  }

  lowest(box: EnclosedBox, spread: Float64Array): number {
    const { w, least } = this.bound;
    const value = this.plate === 'base' ? this.onBase(box, w, spread) : this.onPlatform(box, w, spread);
    return value - least - total(spread) - CENTRE_ROUNDING;
  }

  /** f = w . u, changing by w . u'. */
  private onBase({ enclosure, half, J }: EnclosedBox, [x, y, z]: Vec3, spread: Float64Array): number {
    const { leg } = this;
    for (let number = 0; number < POSE_NUMBERS; number++)
      spread[number] = half[number] * enclosure.registers.magnitudeAlong(enclosure.unitBy(leg, number), x, y, z);
    return x * J[6 * leg] + y * J[6 * leg + 1] + z * J[6 * leg + 2];
  }

  /** f = -(R w) . u, changing by -(a x R w) . u - (R w) . u', with a the axis of the angle. */
  private onPlatform(box: EnclosedBox, w: Vec3, spread: Float64Array): number {
    const { enclosure, half, J, pose } = box;
    const { leg } = this;
    const I = enclosure.registers;
    const Rw = enclosure.scratch;
    enclosure.rotateInto(Rw, w, 0);
    for (let number = 0; number < POSE_NUMBERS; number++) {
      I.dot(Rw + 6, Rw, enclosure.unitBy(leg, number));
      if (number >= 3) {
        I.cross(Rw + 3, enclosure.axis(number), Rw);
        I.dot(Rw + 7, Rw + 3, enclosure.unit(leg));
        I.add(Rw + 6, Rw + 6, Rw + 7);
      }
      spread[number] = half[number] * I.magnitude(Rw + 6);
    }
    const R = pose.R_BP;
    let value = 0;
    for (let row = 0; row < 3; row++)
      value -= (R[3 * row] * w[0] + R[3 * row + 1] * w[1] + R[3 * row + 2] * w[2]) * J[6 * leg + row];
    return value;
  }
}

/** The leg's direction keeps within at least one of two bounds; over a box it surely does where one of them holds throughout. */
export class EitherClaim implements Claim {
  readonly question = 'reachable';
  private readonly otherSpread = new Float64Array(POSE_NUMBERS);

  constructor(
    private readonly one: DirectionClaim,
    private readonly other: DirectionClaim,
  ) {}

  lowest(box: EnclosedBox, spread: Float64Array): number {
    const one = this.one.lowest(box, spread);
    const other = this.other.lowest(box, this.otherSpread);
    if (one >= other) return one;
    spread.set(this.otherSpread);
    return other;
  }
}
