import { type Path, type WritableMoment, writableMoment } from './path.ts';

/** How a way is gone along in time: way, speed and acceleration along it at a time. */
export interface WayLaw {
  /** [s] */
  readonly duration: number;
  at(time: number): { readonly at: number; readonly speed: number; readonly acceleration: number };
}

/** A path whose parameter is gone along by a law: velocities times s', accelerations `x'' s'^2 + x' s''`. */
export function alongPath(path: Path, law: WayLaw): Path {
  const own = writableMoment();
  return {
    duration: law.duration,
    write(time, moment) {
      const { at, speed, acceleration } = law.at(time);
      path.write(at, own);
      copyPose(own, moment);
      for (let n = 0; n < 3; n++) {
        moment.velocity[n] = own.velocity[n] * speed;
        moment.acceleration[n] = own.acceleration[n] * speed * speed + own.velocity[n] * acceleration;
        moment.turning[n] = own.turning[n] * speed;
        moment.turningAcceleration[n] = own.turningAcceleration[n] * speed * speed + own.turning[n] * acceleration;
      }
    },
  };
}

function copyPose(from: WritableMoment, to: WritableMoment): void {
  for (let n = 0; n < 3; n++) to.pose.p_BoTo_B[n] = from.pose.p_BoTo_B[n];
  to.pose.R_BP.set(from.pose.R_BP);
}

/** A law slowed down evenly: everything takes `factor` times as long. */
export const slowed = (law: WayLaw, factor: number): WayLaw => ({
  duration: law.duration * factor,
  at(time) {
    const { at, speed, acceleration } = law.at(time / factor);
    return { at, speed: speed / factor, acceleration: acceleration / factor ** 2 };
  },
});

/** A law whose way can be added up over time. */
export interface SummedLaw extends WayLaw {
  /** Integral of the way from the start to a time within the law. */
  sum(time: number): number;
}

/**
 * A law averaged over `window` seconds: accelerations that jump become ramps of that length, so that no moment of it asks an
 * unbounded jerk, and the way is the same. It takes `window` longer; before its start and after its end the law stands still.
 */
export function eased(law: SummedLaw, window: number): WayLaw {
  if (!(window > 0)) return law;
  const end = law.at(law.duration).at;
  const whole = law.sum(law.duration);
  const still = { at: 0, speed: 0, acceleration: 0 };
  const stateAt = (time: number) => (time <= 0 ? still : time >= law.duration ? { ...still, at: end } : law.at(time));
  const sumTo = (time: number): number => {
    if (time <= 0) return 0;
    return time >= law.duration ? whole + (time - law.duration) * end : law.sum(time);
  };
  return {
    duration: law.duration + window,
    at(time) {
      const [before, now] = [stateAt(time - window), stateAt(time)];
      return {
        at: Math.min(end, (sumTo(time) - sumTo(time - window)) / window),
        speed: (now.at - before.at) / window,
        acceleration: (now.speed - before.speed) / window,
      };
    },
  };
}
