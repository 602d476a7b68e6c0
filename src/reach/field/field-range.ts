/** Numbers that a colour scale is laid over. */
export interface ValueRange {
  /** Lowest and highest finite value. */
  readonly min: number;
  readonly max: number;
  /** Two of a hundred values lie below `low`, two above `high`: what a few places near a singular pose do is left out. */
  readonly low: number;
  readonly high: number;
  /** Values that are finite. */
  readonly count: number;
}

/** Share of the values left out at either end. */
const TAIL = 0.02;

/** The spread of the finite values; null when there are none. */
export function valueRange(...arrays: readonly Float32Array[]): ValueRange | null {
  const total = arrays.reduce((sum, { length }) => sum + length, 0);
  const finite = new Float32Array(total);
  let count = 0;
  for (const values of arrays)
    for (let n = 0; n < values.length; n++) if (Number.isFinite(values[n])) finite[count++] = values[n];
  if (count === 0) return null;
  const sorted = finite.subarray(0, count).sort();
  const at = (share: number) => sorted[Math.round(share * (count - 1))];
  return { min: sorted[0], max: sorted[count - 1], low: at(TAIL), high: at(1 - TAIL), count };
}
