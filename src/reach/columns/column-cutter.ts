/** 0 = x, 1 = y, 2 = z. A column along w is named by its place (u, v) on the other two axes, in cyclic order. */
export type Direction = 0 | 1 | 2;

/** Axes that run across a column, in cyclic order: x columns lie at (y, z), y columns at (z, x), z columns at (x, y). */
export const ACROSS: readonly (readonly [Direction, Direction])[] = [
  [1, 2],
  [2, 0],
  [0, 1],
];

/** Whatever can say which stretches of a column are allowed. */
export interface ColumnCutter {
  readonly starts: Float64Array;
  readonly stops: Float64Array;
  readonly startCodes: Uint8Array;
  readonly stopCodes: Uint8Array;
  /** Number of intervals at (u, v), left in the arrays above. */
  cut(direction: Direction, u: number, v: number): number;
  /** |n_w| at an end of an interval of the last cut: the cosine between the column and the boundary's normal there. */
  startSlope(interval: number): number;
  stopSlope(interval: number): number;
}
