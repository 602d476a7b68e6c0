/** Value with first and second derivative. */
export interface Faded {
  readonly value: number;
  readonly slope: number;
  readonly curve: number;
}

/** The quintic from 0 to 1 over [0, 1], with its derivatives. */
function ease(x: number): Faded {
  if (x <= 0) return { value: 0, slope: 0, curve: 0 };
  if (x >= 1) return { value: 1, slope: 0, curve: 0 };
  return {
    value: x ** 3 * (10 + x * (6 * x - 15)),
    slope: 30 * x * x * (1 - x) ** 2,
    curve: 60 * x * (1 - x) * (1 - 2 * x),
  };
}

/** Factor at a time of a motion that is faded in and out over `fade` seconds each: starts and ends at rest, without a jump of acceleration. */
export function fadeFactor(time: number, duration: number, fade: number): Faded {
  if (!(fade > 0)) return { value: 1, slope: 0, curve: 0 };
  const rising = time < duration / 2;
  const { value, slope, curve } = ease((rising ? time : duration - time) / fade);
  return { value, slope: (rising ? slope : -slope) / fade, curve: curve / fade ** 2 };
}

/** Multiplies coordinates about `middle` by a factor that changes: (f g)' and (f g)'' by the product rule, in place. */
export function applyFade(
  { value, slope, curve }: Faded,
  middle: ArrayLike<number>,
  q: Float64Array,
  dq: Float64Array,
  ddq: Float64Array,
): void {
  for (let n = 0; n < 6; n++) {
    const offset = q[n] - middle[n];
    ddq[n] = value * ddq[n] + 2 * slope * dq[n] + curve * offset;
    dq[n] = value * dq[n] + slope * offset;
    q[n] = middle[n] + value * offset;
  }
}
