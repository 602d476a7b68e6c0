/**
 * Interval arithmetic by centre and radius: register i stands for every number within `rad[i]` of `mid[i]`. Each operation
 * encloses all results of its operands (S. M. Rump, BIT 39(3), 1999: from memory).
 *
 * Rounding: a centre computed in double precision is off by at most half a unit in its last place; every radius is
 * enlarged by {@link ROUNDING} of the centre and of itself, twice what the few operations in it can lose, and by {@link TINY} for
 * results that underflow. Vectors take three registers in a row.
 */
export class Intervals {
  readonly mid: Float64Array;
  readonly rad: Float64Array;

  constructor(registers: number) {
    this.mid = new Float64Array(registers);
    this.rad = new Float64Array(registers);
  }

  /** Largest absolute value in the register. */
  magnitude(i: number): number {
    return (Math.abs(this.mid[i]) + this.rad[i]) * GROWTH;
  }

  /** Largest absolute value of (x, y, z) . a for an exact vector and a vector of registers. */
  magnitudeAlong(a: number, x: number, y: number, z: number): number {
    const { mid, rad } = this;
    const parts = [x * mid[a], y * mid[a + 1], z * mid[a + 2]];
    const wide = Math.abs(x) * rad[a] + Math.abs(y) * rad[a + 1] + Math.abs(z) * rad[a + 2];
    const size = Math.abs(parts[0]) + Math.abs(parts[1]) + Math.abs(parts[2]);
    return (Math.abs(parts[0] + parts[1] + parts[2]) + wide) * GROWTH + 4 * ROUNDING * size + TINY;
  }

  /** At most, at least. */
  high(i: number): number {
    return this.mid[i] + this.rad[i] + 2 * ROUNDING * (Math.abs(this.mid[i]) + this.rad[i]);
  }

  low(i: number): number {
    return this.mid[i] - this.rad[i] - 2 * ROUNDING * (Math.abs(this.mid[i]) + this.rad[i]);
  }

  set(to: number, mid: number, rad = 0): void {
    this.mid[to] = mid;
    this.rad[to] = rad;
  }

  copy(to: number, a: number): void {
    this.set(to, this.mid[a], this.rad[a]);
  }

  add(to: number, a: number, b: number): void {
    this.put(to, this.mid[a] + this.mid[b], this.rad[a] + this.rad[b]);
  }

  subtract(to: number, a: number, b: number): void {
    this.put(to, this.mid[a] - this.mid[b], this.rad[a] + this.rad[b]);
  }

  multiply(to: number, a: number, b: number): void {
    const { mid, rad } = this;
    this.put(to, mid[a] * mid[b], Math.abs(mid[a]) * rad[b] + Math.abs(mid[b]) * rad[a] + rad[a] * rad[b]);
  }

  /** Times an exact number. */
  scale(to: number, a: number, factor: number): void {
    this.put(to, this.mid[a] * factor, this.rad[a] * Math.abs(factor));
  }

  /** to += factor * a, factor an exact number. */
  addScaled(to: number, a: number, factor: number): void {
    const product = this.mid[a] * factor;
    const sum = this.mid[to] + product;
    // the product's own rounding counts too: it can be larger than the sum
    this.put(to, sum, this.rad[to] + this.rad[a] * Math.abs(factor) + ROUNDING * Math.abs(product));
  }

  /** a^2, tighter than a times a. */
  square(to: number, a: number): void {
    const { mid, rad } = this;
    const low = Math.max(0, Math.abs(mid[a]) - rad[a]);
    const high = Math.abs(mid[a]) + rad[a];
    this.putRange(to, low * low, high * high);
  }

  /** Square root of the part at or above zero. */
  squareRoot(to: number, a: number): void {
    this.putRange(to, Math.sqrt(Math.max(0, this.low(a))), Math.sqrt(Math.max(0, this.high(a))));
  }

  /** 1 / a; all numbers when a may be zero or less. */
  reciprocal(to: number, a: number): void {
    const low = this.low(a);
    if (low > 0) this.putRange(to, 1 / this.high(a), 1 / low);
    else this.set(to, 0, Number.POSITIVE_INFINITY);
  }

  /**
   * Cosine of all angles within `half` of `centre` [rad], half at most pi/2:
   * cos(c + d) = cos c cos d - sin c sin d with cos d in [cos h, 1] and |sin d| <= sin h.
   */
  cosine(to: number, centre: number, half: number): void {
    const least = half > 0 ? Math.cos(half) : 1;
    const c = Math.cos(centre);
    const wide = Math.abs(c) * ((1 - least) / 2) + Math.abs(Math.sin(centre)) * Math.sin(half);
    // a library cosine is good to one unit in the last place of 1, so a small one is not good to its own last place
    this.put(to, c * ((1 + least) / 2), wide + 4 * ROUNDING);
  }

  sine(to: number, centre: number, half: number): void {
    this.cosine(to, centre - Math.PI / 2, half);
    // the shifted angle is off by a rounding of a quarter turn
    this.rad[to] += 8 * ROUNDING;
  }

  /** a . b of two vectors. */
  dot(to: number, a: number, b: number): void {
    const { mid, rad } = this;
    let sum = 0;
    let size = 0;
    let wide = 0;
    for (let k = 0; k < 3; k++) {
      const ma = mid[a + k];
      const mb = mid[b + k];
      sum += ma * mb;
      size += Math.abs(ma * mb);
      wide += Math.abs(ma) * rad[b + k] + Math.abs(mb) * rad[a + k] + rad[a + k] * rad[b + k];
    }
    this.put(to, sum, wide + 4 * ROUNDING * size);
  }

  /** a x b of two vectors; `to` must not overlap them. */
  cross(to: number, a: number, b: number): void {
    this.minor(to, a + 1, b + 2, a + 2, b + 1);
    this.minor(to + 1, a + 2, b, a, b + 2);
    this.minor(to + 2, a, b + 1, a + 1, b);
  }

  /** a b - c d. */
  private minor(to: number, a: number, b: number, c: number, d: number): void {
    const { mid, rad } = this;
    const one = mid[a] * mid[b];
    const other = mid[c] * mid[d];
    const wide =
      Math.abs(mid[a]) * rad[b] +
      Math.abs(mid[b]) * rad[a] +
      rad[a] * rad[b] +
      Math.abs(mid[c]) * rad[d] +
      Math.abs(mid[d]) * rad[c] +
      rad[c] * rad[d];
    this.put(to, one - other, wide + ROUNDING * (Math.abs(one) + Math.abs(other)));
  }

  private put(to: number, mid: number, rad: number): void {
    this.mid[to] = mid;
    this.rad[to] = rad * GROWTH + ROUNDING * Math.abs(mid) + TINY;
  }

  private putRange(to: number, low: number, high: number): void {
    this.put(to, low + (high - low) / 2, (high - low) / 2 + 4 * ROUNDING * high);
  }
}

/** One unit in the last place of 1; half of it bounds the rounding of one operation. */
export const ROUNDING = Number.EPSILON;

/** Radii are sums and products of at most some ten numbers at or above zero. */
const GROWTH = 1 + 16 * ROUNDING;

/** Larger than what an underflowing product loses, smaller than anything measured. */
const TINY = 1e-300;
