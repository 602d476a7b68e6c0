import { LEG_COUNT } from '../../kinematics/layout.ts';
import { invertInPlace } from '../../math/inverse.ts';
import { POSE_NUMBERS } from '../pose-box.ts';
import { CENTRE_ROUNDING, type Claim, type EnclosedBox } from './prove-claims.ts';

/** Rounds in which the weights of the norm are fitted to the matrix; each costs 36 products, more than this gain nothing. */
const WEIGHT_ROUNDS = 4;

/** The bound itself is a sum of some hundred positive numbers, each rounded. */
const SUM_ROUNDING = 1e-12;

/**
 * No pose of the box is singular.
 *
 * With J0 the Jacobian at the centre, J is regular if some norm of `J0^-1 J - I` is below 1. That matrix lies within
 * `A = sum_j h_j |J0^-1 dJ/dx_j|`, entry by entry; and if A v < v for one positive vector v, the norm weighted by v is below 1
 * (Perron, Collatz: see A. Neumaier, Interval Methods for Systems of Equations, 1990: from memory). Then det J keeps its sign
 * throughout the box, and across boxes that touch.
 */
export class RegularClaim implements Claim {
  readonly question = 'regular';
  /** J0^-1 of the box last looked at, flat 6x6. */
  readonly inverse = new Float64Array(36);
  /** h_j |J0^-1 dJ/dx_j|, one 6x6 after the other. */
  private readonly parts = new Float64Array(36 * POSE_NUMBERS);
  /** Bounds |J0^-1 J - I| over the box last looked at, entry by entry, flat 6x6. */
  readonly A = new Float64Array(36);
  private readonly v = new Float64Array(6);
  private readonly Av = new Float64Array(6);

  /** 1 less the weighted norm. */
  lowest(box: EnclosedBox, spread: Float64Array): number {
    const { inverse, A, v } = this;
    inverse.set(box.J);
    const determinant = invertInPlace(6, inverse);
    if (determinant === 0 || !inverse.every(Number.isFinite)) {
      spread.set(box.half);
      return Number.NEGATIVE_INFINITY;
    }
    this.residual(box);
    for (let number = 0; number < POSE_NUMBERS; number++) this.addPart(box, number);
    const length = box.mechanism.characteristicLength;
    for (let row = 0; row < 6; row++) v[row] = row < 3 ? length : 1;
    let ratio = this.weightedNorm(A, 0);
    for (let round = 0; round < WEIGHT_ROUNDS && ratio >= 1; round++) {
      this.refit();
      ratio = Math.min(ratio, this.weightedNorm(A, 0));
    }
    for (let number = 0; number < POSE_NUMBERS; number++) spread[number] = this.weightedNorm(this.parts, 36 * number);
    return 1 - ratio * (1 + SUM_ROUNDING);
  }

  /** A = |J0^-1 J0 - I| as computed, and what rounding may hide. */
  private residual({ J }: EnclosedBox): void {
    const { inverse, A } = this;
    for (let row = 0; row < 6; row++) {
      for (let column = 0; column < 6; column++) {
        let sum = row === column ? -1 : 0;
        let size = 0;
        for (let leg = 0; leg < LEG_COUNT; leg++) {
          const product = inverse[6 * row + leg] * J[6 * leg + column];
          sum += product;
          size += Math.abs(product);
        }
        A[6 * row + column] = Math.abs(sum) + CENTRE_ROUNDING * size;
      }
    }
  }

  private addPart({ enclosure, half }: EnclosedBox, number: number): void {
    const { inverse, parts, A } = this;
    const { mid, rad } = enclosure.registers;
    const start = 36 * number;
    for (let column = 0; column < 6; column++) {
      for (let row = 0; row < 6; row++) {
        let sum = 0;
        let wide = 0;
        for (let leg = 0; leg < LEG_COUNT; leg++) {
          const register =
            column < 3 ? enclosure.unitBy(leg, number) + column : enclosure.momentBy(leg, number) + column - 3;
          const factor = inverse[6 * row + leg];
          const product = factor * mid[register];
          sum += product;
          wide += Math.abs(factor) * rad[register] + SUM_ROUNDING * Math.abs(product);
        }
        const part = half[number] * (Math.abs(sum) + wide);
        parts[start + 6 * row + column] = part;
        A[6 * row + column] += part;
      }
    }
  }

  /** Largest of (M v)_i / v_i. */
  private weightedNorm(M: Float64Array, start: number): number {
    const { v, Av } = this;
    let largest = 0;
    for (let row = 0; row < 6; row++) {
      let sum = 0;
      for (let column = 0; column < 6; column++) sum += M[start + 6 * row + column] * v[column];
      Av[row] = sum;
      largest = Math.max(largest, sum / v[row]);
    }
    return largest;
  }

  /** v turns toward A's own positive vector; the mean keeps it positive where a row is empty. */
  private refit(): void {
    const { A, v, Av } = this;
    const ratio = this.weightedNorm(A, 0);
    for (let row = 0; row < 6; row++) v[row] = 0.5 * (v[row] + Av[row] / ratio);
  }
}
