/** Golden section: the share by which an interval shrinks with every look. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Looks of a search: they narrow the time to 1e-7 of two samples; a smooth minimum's value is then off by rounding only. */
const LOOKS = 34;

/** Where f is least between two times with one dip between them: golden section. */
export function lowestBetween(
  f: (time: number) => number,
  from: number,
  to: number,
): { readonly time: number; readonly value: number } {
  let [low, high] = [from, to];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [f(left), f(right)];
  for (let n = 0; n < LOOKS; n++) {
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = f(right);
    }
  }
  return atLeft < atRight ? { time: left, value: atLeft } : { time: right, value: atRight };
}

/** Halvings of a root search: past the last digit of any time that is not zero. */
const HALVINGS = 52;

/** Time between two at which `isPast` changes its answer. */
export function changeBetween(isPast: (time: number) => boolean, from: number, to: number): number {
  const start = isPast(from);
  let [low, high] = [from, to];
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (isPast(middle) === start) low = middle;
    else high = middle;
  }
  return high;
}
