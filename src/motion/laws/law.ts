/** Where along a way a motion is at a time, with its derivatives; units are those of the way (mm, rad or 1). */
export interface Progress {
  readonly at: number;
  readonly speed: number;
  readonly acceleration: number;
  readonly jerk: number;
}

/** A motion from rest to rest along a way of given length. */
export interface Law {
  /** [s] */
  readonly duration: number;
  /** Progress at a time; before the start and after the end the motion stands still. */
  at(time: number): Progress;
}

/** What a law keeps to, each above 0; infinite where there is no limit. */
export interface LawLimits {
  readonly speed: number;
  readonly acceleration: number;
  readonly jerk: number;
}

/** A law made of pieces of constant jerk that follow each other; the state is carried from piece to piece. */
export function jerkPieces(
  pieces: readonly { readonly seconds: number; readonly jerk: number; readonly acceleration: number }[],
): Law {
  const starts: { time: number; at: number; speed: number }[] = [];
  let [time, at, speed] = [0, 0, 0];
  for (const { seconds: h, jerk, acceleration } of pieces) {
    starts.push({ time, at, speed });
    time += h;
    at += h * (speed + h * (acceleration / 2 + (h * jerk) / 6));
    speed += h * (acceleration + (h * jerk) / 2);
  }
  const [duration, end] = [time, at];
  return {
    duration,
    at(now) {
      if (now <= 0) return { at: 0, speed: 0, acceleration: 0, jerk: 0 };
      if (now >= duration) return { at: end, speed: 0, acceleration: 0, jerk: 0 };
      let n = pieces.length - 1;
      while (starts[n].time > now) n--;
      const { jerk, acceleration } = pieces[n];
      const start = starts[n];
      const h = now - start.time;
      return {
        at: start.at + h * (start.speed + h * (acceleration / 2 + (h * jerk) / 6)),
        speed: start.speed + h * (acceleration + (h * jerk) / 2),
        acceleration: acceleration + h * jerk,
        jerk,
      };
    },
  };
}
