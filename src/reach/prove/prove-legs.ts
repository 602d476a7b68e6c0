import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { Intervals } from '../../math/interval.ts';
import { POSE_NUMBERS } from '../pose-box.ts';

// Shared registers: rotation matrix, the axes that roll and pitch turn about (yaw's is z), and some room to work in.
const R = 0;
const AXES = 9;
const WORK = 18;
const SHARED = 48;

// Registers of one leg, from its own start.
/** R b: platform joint from the tool point. */
const ARM = 0;
/** p_AiBi_B */
const LEG = 3;
const LENGTH = 6;
const INVERSE = 7;
/** u */
const UNIT = 8;
/** Change of the length with each pose number. */
const LENGTH_BY = 11;
/** Change of u with each pose number, three registers each. */
const UNIT_BY = 17;
/** Change of R b with each of the three angles. */
const ARM_BY = 35;
/** Change of the moment row (R b) x u with each pose number. */
const MOMENT_BY = 44;
const PER_LEG = 62;

const SCRATCH = 24;

/**
 * Encloses the legs of every pose of a box: directions, lengths, Jacobian rows and how each changes with the six pose
 * numbers. With these, anything smooth is enclosed by the mean value theorem,
 * `f(x) - f(c)` in the sum of `[df/dx_j](box) (x_j - c_j)`.
 *
 * With q = t + R b - a, l = |q|, u = q/l:  q' = t' + w x R b (w the axis of the angle), l' = u . q', u' = (q' - u l')/l,
 * ((R b) x u)' = (w x R b) x u + (R b) x u'. R = Rz(yaw) Ry(pitch) Rx(roll) turns with roll about R e_x, with pitch about
 * Rz e_y and with yaw about e_z.
 */
export class LegEnclosure {
  readonly registers = new Intervals(SHARED + PER_LEG * LEG_COUNT + SCRATCH);
  /** First of {@link SCRATCH} registers for whoever uses the enclosure. */
  readonly scratch = SHARED + PER_LEG * LEG_COUNT;
  readonly rotation = R;
  private readonly mechanism: Mechanism;

  constructor(mechanism: Mechanism) {
    this.mechanism = mechanism;
  }

  /** Registers of leg 0 to 5; vectors take three in a row, starting at the number returned. */
  arm = (leg: number): number => SHARED + PER_LEG * leg + ARM;
  vector = (leg: number): number => SHARED + PER_LEG * leg + LEG;
  unit = (leg: number): number => SHARED + PER_LEG * leg + UNIT;
  length = (leg: number): number => SHARED + PER_LEG * leg + LENGTH;
  lengthBy = (leg: number, number: number): number => SHARED + PER_LEG * leg + LENGTH_BY + number;
  unitBy = (leg: number, number: number): number => SHARED + PER_LEG * leg + UNIT_BY + 3 * number;
  momentBy = (leg: number, number: number): number => SHARED + PER_LEG * leg + MOMENT_BY + 3 * number;
  /** Change of R b with roll, pitch, yaw (number 3, 4, 5). */
  armBy = (leg: number, number: number): number => SHARED + PER_LEG * leg + ARM_BY + 3 * (number - 3);
  /** Axis that angle number 3, 4, 5 turns about. */
  axis = (number: number): number => AXES + 3 * (number - 3);

  /** Encloses all poses of the box about `centre`; angles must be within a quarter turn of their centre. */
  enclose(centre: Float64Array, half: Float64Array): void {
    this.encloseRotation(centre, half);
    for (let leg = 0; leg < LEG_COUNT; leg++) this.encloseLeg(leg, centre, half);
  }

  private encloseRotation(centre: Float64Array, half: Float64Array): void {
    const I = this.registers;
    const [cr, sr, cp, sp, cy, sy] = [WORK, WORK + 1, WORK + 2, WORK + 3, WORK + 4, WORK + 5];
    I.cosine(cr, centre[3], half[3]);
    I.sine(sr, centre[3], half[3]);
    I.cosine(cp, centre[4], half[4]);
    I.sine(sp, centre[4], half[4]);
    I.cosine(cy, centre[5], half[5]);
    I.sine(sy, centre[5], half[5]);
    // first column: R e_x, which is also roll's axis
    I.multiply(R, cy, cp);
    I.multiply(R + 3, sy, cp);
    I.scale(R + 6, sp, -1);
    const [spsr, spcr, a, b] = [WORK + 6, WORK + 7, WORK + 8, WORK + 9];
    I.multiply(spsr, sp, sr);
    I.multiply(spcr, sp, cr);
    // cy sp sr - sy cr, sy sp sr + cy cr, cp sr
    I.multiply(a, cy, spsr);
    I.multiply(b, sy, cr);
    I.subtract(R + 1, a, b);
    I.multiply(a, sy, spsr);
    I.multiply(b, cy, cr);
    I.add(R + 4, a, b);
    I.multiply(R + 7, cp, sr);
    // cy sp cr + sy sr, sy sp cr - cy sr, cp cr
    I.multiply(a, cy, spcr);
    I.multiply(b, sy, sr);
    I.add(R + 2, a, b);
    I.multiply(a, sy, spcr);
    I.multiply(b, cy, sr);
    I.subtract(R + 5, a, b);
    I.multiply(R + 8, cp, cr);
    for (let axis = 0; axis < 3; axis++) I.copy(AXES + axis, R + 3 * axis);
    I.scale(AXES + 3, sy, -1);
    I.copy(AXES + 4, cy);
    I.set(AXES + 5, 0);
    I.set(AXES + 6, 0);
    I.set(AXES + 7, 0);
    I.set(AXES + 8, 1);
  }

  /** Writes R v for an exact vector at three numbers of a flat array. */
  rotateInto(to: number, flat: ArrayLike<number>, at: number): void {
    const I = this.registers;
    for (let row = 0; row < 3; row++) {
      I.scale(to + row, R + 3 * row, flat[at]);
      I.addScaled(to + row, R + 3 * row + 1, flat[at + 1]);
      I.addScaled(to + row, R + 3 * row + 2, flat[at + 2]);
    }
  }

  private encloseLeg(leg: number, centre: Float64Array, half: Float64Array): void {
    const I = this.registers;
    const { p_ToBi_P, centres } = this.mechanism;
    const at = SHARED + PER_LEG * leg;
    const [r, q, u] = [at + ARM, at + LEG, at + UNIT];
    this.rotateInto(r, p_ToBi_P, 3 * leg);
    for (let axis = 0; axis < 3; axis++) {
      I.set(WORK, centre[axis], half[axis]);
      I.set(WORK + 1, centres.base[3 * leg + axis]);
      I.subtract(WORK, WORK, WORK + 1);
      I.add(q + axis, WORK, r + axis);
      I.square(WORK + 2 + axis, q + axis);
    }
    I.add(WORK, WORK + 2, WORK + 3);
    I.add(WORK, WORK, WORK + 4);
    I.squareRoot(at + LENGTH, WORK);
    I.reciprocal(at + INVERSE, at + LENGTH);
    for (let axis = 0; axis < 3; axis++) I.multiply(u + axis, q + axis, at + INVERSE);
    for (let number = 0; number < POSE_NUMBERS; number++) this.encloseChange(at, number, r, u);
  }

  private encloseChange(at: number, number: number, r: number, u: number): void {
    const I = this.registers;
    const step = number < 3 ? WORK : at + ARM_BY + 3 * (number - 3);
    if (number < 3) for (let axis = 0; axis < 3; axis++) I.set(step + axis, axis === number ? 1 : 0);
    else I.cross(step, AXES + 3 * (number - 3), r);
    const lengthBy = at + LENGTH_BY + number;
    I.dot(lengthBy, u, step);
    const unitBy = at + UNIT_BY + 3 * number;
    for (let axis = 0; axis < 3; axis++) {
      I.multiply(WORK + 3, u + axis, lengthBy);
      I.subtract(WORK + 3, step + axis, WORK + 3);
      I.multiply(unitBy + axis, WORK + 3, at + INVERSE);
    }
    const momentBy = at + MOMENT_BY + 3 * number;
    I.cross(momentBy, r, unitBy);
    if (number < 3) return;
    I.cross(WORK + 6, step, u);
    for (let axis = 0; axis < 3; axis++) I.add(momentBy + axis, momentBy + axis, WORK + 6 + axis);
  }
}
