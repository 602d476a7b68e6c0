/** Index of the interval that holds a time; the first or last one for a time outside. */
export function intervalOf(times: Float64Array, time: number): number {
  let low = 0;
  let high = times.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (times[middle] <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}
