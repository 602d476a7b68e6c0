import { jerkPieces, type Law, type LawLimits } from './law.ts';

/** Speed up, hold, slow down, with jumps of the acceleration; fastest within speed and acceleration. */
export function trapezoid(way: number, { speed, acceleration }: LawLimits): Law {
  const reached = Math.min(speed, Math.sqrt(way * acceleration));
  const ramp = reached / acceleration;
  const hold = Math.max(0, way / reached - ramp);
  return jerkPieces([
    { seconds: ramp, jerk: 0, acceleration },
    { seconds: hold, jerk: 0, acceleration: 0 },
    { seconds: ramp, jerk: 0, acceleration: -acceleration },
  ]);
}

/**
 * Seven pieces of constant jerk, from rest to rest: the fastest motion within speed, acceleration and jerk.
 * Where speed or acceleration are not reached their pieces have no length. (Closed forms; derived.)
 */
export function jerkLimited(way: number, { speed, acceleration, jerk }: LawLimits): Law {
  const { ramp, ease, hold } = jerkTimes(way, speed, acceleration, jerk);
  const reached = jerk * ease;
  const steady = ramp - 2 * ease;
  const rise = (sign: 1 | -1) => [
    { seconds: ease, jerk: sign * jerk, acceleration: 0 },
    { seconds: steady, jerk: 0, acceleration: sign * reached },
    { seconds: ease, jerk: -sign * jerk, acceleration: sign * reached },
  ];
  return jerkPieces([...rise(1), { seconds: hold, jerk: 0, acceleration: 0 }, ...rise(-1)]);
}

/** Lengths of the pieces [s]: a whole ramp, the easing in and out of it, and the time at full speed. */
export interface JerkTimes {
  readonly ramp: number;
  readonly ease: number;
  readonly hold: number;
}

/** Times of {@link jerkLimited}. */
export function jerkTimes(way: number, speed: number, acceleration: number, jerk: number): JerkTimes {
  // ramp to full speed: with the full acceleration for a while, or without ever reaching it
  const easy = speed * jerk < acceleration * acceleration;
  const fullEase = easy ? Math.sqrt(speed / jerk) : acceleration / jerk;
  const fullRamp = easy ? 2 * fullEase : speed / acceleration + fullEase;
  if (way >= speed * fullRamp) return { ramp: fullRamp, ease: fullEase, hold: way / speed - fullRamp };
  // full speed is not reached: way = (speed reached) * ramp
  const ease = acceleration / jerk;
  if (way >= 2 * acceleration * ease * ease) {
    const top = (acceleration / 2) * (Math.sqrt(ease * ease + (4 * way) / acceleration) - ease);
    return { ramp: top / acceleration + ease, ease, hold: 0 };
  }
  const short = Math.cbrt(way / (2 * jerk));
  return { ramp: 2 * short, ease: short, hold: 0 };
}

/** Peaks of the quintic's first three derivatives on a way of 1 in a time of 1: at 1/2, at (3 - sqrt 3)/6 and at the ends. */
export const QUINTIC_PEAKS = { speed: 15 / 8, acceleration: 10 / Math.sqrt(3), jerk: 60 } as const;

/** 10 x^3 - 15 x^4 + 6 x^5: smooth, no speed and no acceleration at either end; as slow as the tightest limit asks. */
export function quintic(way: number, limits: LawLimits): Law {
  const duration = Math.max(
    (QUINTIC_PEAKS.speed * way) / limits.speed,
    Math.sqrt((QUINTIC_PEAKS.acceleration * way) / limits.acceleration),
    Math.cbrt((QUINTIC_PEAKS.jerk * way) / limits.jerk),
  );
  return quinticIn(way, duration);
}

/** The quintic over a way in a given time [s]. */
export const quinticIn = (way: number, duration: number): Law => ({
  duration,
  at(time) {
    if (!(time > 0)) return { at: 0, speed: 0, acceleration: 0, jerk: 0 };
    if (time >= duration) return { at: way, speed: 0, acceleration: 0, jerk: 0 };
    const x = time / duration;
    return {
      at: way * x ** 3 * (10 + x * (6 * x - 15)),
      speed: (way / duration) * 30 * x * x * (1 - x) ** 2,
      acceleration: (way / duration ** 2) * 60 * x * (1 - x) * (1 - 2 * x),
      jerk: (way / duration ** 3) * 60 * (1 - 6 * x * (1 - x)),
    };
  },
});
