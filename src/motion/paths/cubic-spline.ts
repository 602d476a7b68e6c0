import { intervalOf } from '../intervals.ts';

/**
 * A curve of several coordinates through given values at given times with continuous first and second derivatives. Slopes at
 * the ends are those of the cubic through the four values next to each end, so that a record cut out of a longer motion keeps its
 * speed there.
 */
export class CubicSpline {
  readonly times: Float64Array;
  private readonly values: Float64Array;
  private readonly slopes: Float64Array;
  private readonly width: number;

  /**
   * @param times increasing, at least two
   * @param values one row of `width` numbers a time, flat
   */
  constructor(times: Float64Array, values: Float64Array, width: number) {
    this.times = times;
    this.values = values;
    this.width = width;
    this.slopes = new Float64Array(values.length);
    for (let column = 0; column < width; column++) this.solveColumn(column);
  }

  /** Thomas' algorithm for `m_k-1 / h_k-1 + 2 (1/h_k-1 + 1/h_k) m_k + m_k+1 / h_k = 3 (d_k-1 / h_k-1^2 + d_k / h_k^2)`. */
  private solveColumn(column: number): void {
    const { times, values, slopes, width } = this;
    const count = times.length;
    const value = (n: number): number => values[width * n + column];
    slopes[column] = endSlope(times, value, 0, 1);
    slopes[width * (count - 1) + column] = endSlope(times, value, count - 1, -1);
    const factors = new Float64Array(count);
    const right = new Float64Array(count);
    for (let n = 1; n < count - 1; n++) {
      const [before, after] = [times[n] - times[n - 1], times[n + 1] - times[n]];
      let sum = 3 * ((value(n) - value(n - 1)) / before ** 2 + (value(n + 1) - value(n)) / after ** 2);
      let diagonal = 2 * (1 / before + 1 / after);
      if (n === 1) sum -= slopes[column] / before;
      else {
        diagonal -= factors[n - 1] / before;
        sum -= right[n - 1] / before;
      }
      if (n === count - 2) sum -= slopes[width * (count - 1) + column] / after;
      factors[n] = 1 / after / diagonal;
      right[n] = sum / diagonal;
    }
    for (let n = count - 2; n >= 1; n--) {
      const next = n === count - 2 ? 0 : slopes[width * (n + 1) + column];
      slopes[width * n + column] = right[n] - factors[n] * next;
    }
  }

  /** Writes value, first and second derivative at a time within the given ones. */
  write(time: number, value: Float64Array, slope: Float64Array, curve: Float64Array): void {
    const { times, values, slopes, width } = this;
    const n = intervalOf(times, time);
    const h = times[n + 1] - times[n];
    const x = (time - times[n]) / h;
    for (let column = 0; column < width; column++) {
      const start = values[width * n + column];
      const rise = values[width * (n + 1) + column] - start;
      const m0 = h * slopes[width * n + column];
      const m1 = h * slopes[width * (n + 1) + column];
      const c2 = 3 * rise - 2 * m0 - m1;
      const c3 = m0 + m1 - 2 * rise;
      value[column] = start + x * (m0 + x * (c2 + x * c3));
      slope[column] = (m0 + x * (2 * c2 + x * 3 * c3)) / h;
      curve[column] = (2 * c2 + x * 6 * c3) / (h * h);
    }
  }
}

/** Slope at an end of the polynomial through it and up to three neighbours. */
function endSlope(times: Float64Array, value: (n: number) => number, end: number, step: 1 | -1): number {
  const count = Math.min(4, times.length);
  let sum = 0;
  for (let n = 1; n < count; n++) {
    const index = end + step * n;
    let weight = 1 / (times[index] - times[end]);
    for (let other = 1; other < count; other++) {
      if (other === n) continue;
      const t = times[end + step * other];
      weight *= (times[end] - t) / (times[index] - t);
    }
    sum += weight * (value(index) - value(end));
  }
  return sum;
}
