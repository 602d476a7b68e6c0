/** Vertical columns that are cut together: their places, what is left of each, and the area each stands for. */
export interface ColumnBatch {
  /** Columns in use; the arrays may be longer. */
  count: number;
  /** Place in plan [mm]. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Lower and upper end [mm]; nothing is left of a column whose top is not above its bottom. */
  readonly bottom: Float64Array;
  readonly top: Float64Array;
  /** Area in plan for which the column stands in an integral [mm^2]. */
  readonly area: Float64Array;
}

export const columnBatch = (most: number): ColumnBatch => ({
  count: 0,
  x: new Float64Array(most),
  y: new Float64Array(most),
  bottom: new Float64Array(most),
  top: new Float64Array(most),
  area: new Float64Array(most),
});

/** Adds a column. */
export function addColumn(batch: ColumnBatch, x: number, y: number, area: number): void {
  const n = batch.count++;
  batch.x[n] = x;
  batch.y[n] = y;
  batch.area[n] = area;
}

/** What the columns hold together [mm^3]: heights times areas. */
export function volumeOf({ count, bottom, top, area }: ColumnBatch): number {
  let volume = 0;
  for (let n = 0; n < count; n++) {
    const gap = top[n] - bottom[n];
    if (gap > 0) volume += gap * area[n];
  }
  return volume;
}
