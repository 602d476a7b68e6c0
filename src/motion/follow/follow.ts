import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { LongWork } from '../../math/long-work.ts';
import { type Path, type WritableMoment, writableMoment } from '../paths/path.ts';
import { LEG_READINGS, LegReadings, type MovingDesign } from './leg-readings.ts';
import { MOTION_LIMITS, type MotionLimit } from './limits.ts';
import { changeBetween, lowestBetween } from './refine.ts';

/** Least and greatest value of one reading of one leg, with their times. */
export interface ReadingRange {
  readonly min: number;
  readonly minAt: number;
  readonly max: number;
  readonly maxAt: number;
}

/** A stretch of time over which one leg, or the whole platform, is past a limit. */
export interface Excursion {
  readonly limit: MotionLimit | 'clearance';
  /** 1 to 6; null for clearance. */
  readonly leg: number | null;
  readonly from: number;
  readonly to: number;
  /** Least room left, negative, in the limit's own unit, and its time. */
  readonly worst: number;
  readonly worstAt: number;
}

/** What a motion asks. */
export interface MotionReport {
  /** [s] */
  readonly duration: number;
  /** LEG_READINGS times six, in that order. */
  readonly ranges: readonly ReadingRange[];
  /** Root of the mean square of the force between barrel and rod [N], and the work of the motors without what comes back [J]. */
  readonly forceRms: Float64Array;
  readonly energy: Float64Array;
  /** In the order of time. */
  readonly excursions: readonly Excursion[];
  /** Times at which the platform passes a singular pose [s]. */
  readonly crossings: readonly number[];
  /** Smallest clearance [mm] and its time; null where it was not asked for. */
  readonly clearance: { readonly least: number; readonly at: number } | null;
  /** Moments looked at one after the other; dips and crossings between them were searched for. */
  readonly samples: number;
  /** False when it was stopped: the report then covers the time up to the last sample only. */
  readonly complete: boolean;
}

/** What is asked of a motion besides the design's own limits. */
export interface FollowOptions {
  /** Times to look at [s], increasing, from 0 to the path's duration. */
  readonly times: ArrayLike<number>;
  /** Smallest distance of any two bodies at a pose [mm], and what it must be; left out: not looked at. */
  readonly clearance?: { readonly at: (moment: WritableMoment) => number; readonly least: number };
  /** Called at every time with the readings of that moment. */
  readonly onSample?: (time: number, readings: LegReadings, moment: WritableMoment) => void;
}

/** Samples between two questions whether to go on. */
const PACE = 512;

/**
 * Follows a motion: readings at every given time, and between the times the true extremes (by search about every sample that is
 * larger than its neighbours), every excursion past a limit with its beginning and end (by root search), and every singular pose
 * passed (by the sign of the determinant). A dip that both begins and ends between two samples is found where the three samples about
 * it show it by their bend.
 */
export function followMotion(design: MovingDesign, path: Path, options: FollowOptions, work: LongWork): MotionReport {
  const run = new Following(design, path, options);
  let done = 0;
  const { times } = options;
  for (; done < times.length; done++) {
    if (done % PACE === 0) {
      if (work.shouldStop()) break;
      work.report(done, times.length);
    }
    run.sample(times[done]);
  }
  return run.report(done, done === times.length);
}

const READINGS = LEG_READINGS.length * LEG_COUNT;
const MARGINS = MOTION_LIMITS.length * LEG_COUNT;

/** A dip is searched for when three samples, bent as they are, let it pass the mark within this many times their own depth. */
const DOUBT = 3;

class Following {
  private readonly path: Path;
  private readonly readings: LegReadings;
  private readonly moment = writableMoment();
  /** Margins of the sample at hand: searches overwrite those of the readings. */
  private readonly margins = new Float64Array(MARGINS);
  private readonly options: FollowOptions;
  /** Lines watched: every margin, and clearance as the last. */
  private readonly lines: readonly LineWatch[];
  private readonly highs: Float64Array;
  private readonly highTimes: Float64Array;
  /** The last three samples of every reading, newest last. */
  private readonly recent: [Float64Array, Float64Array, Float64Array];
  private readonly recentTimes = [Number.NaN, Number.NaN, Number.NaN];
  private readonly squares = new Float64Array(LEG_COUNT);
  private readonly work = new Float64Array(LEG_COUNT);
  private readonly crossings: number[] = [];
  private lastSign = 0;
  private count = 0;

  constructor(design: MovingDesign, path: Path, options: FollowOptions) {
    this.path = path;
    this.options = options;
    this.readings = new LegReadings(design);
    const marginLine = (n: number): LineWatch =>
      new LineWatch((time) => {
        this.look(time);
        return this.readings.margins[n];
      });
    this.lines = Array.from({ length: MARGINS }, (_, n) => marginLine(n));
    if (options.clearance) this.lines = [...this.lines, new LineWatch((time) => this.clearanceAt(time))];
    this.highs = new Float64Array(2 * READINGS).fill(Number.NEGATIVE_INFINITY);
    this.highTimes = new Float64Array(2 * READINGS);
    this.recent = [new Float64Array(READINGS), new Float64Array(READINGS), new Float64Array(READINGS)];
  }

  private look(time: number): void {
    this.path.write(time, this.moment);
    this.readings.read(this.moment);
  }

  private clearanceAt(time: number): number {
    const { clearance } = this.options;
    if (!clearance) return Number.POSITIVE_INFINITY;
    this.path.write(time, this.moment);
    return clearance.at(this.moment) - clearance.least;
  }

  sample(time: number): void {
    this.look(time);
    const { readings, recent, recentTimes } = this;
    this.options.onSample?.(time, readings, this.moment);
    const oldest = recent[0];
    oldest.set(readings.values);
    [recent[0], recent[1], recent[2]] = [recent[1], recent[2], oldest];
    [recentTimes[0], recentTimes[1], recentTimes[2]] = [recentTimes[1], recentTimes[2], time];
    const sign = readings.sign;
    const { margins } = this;
    margins.set(readings.margins);
    this.count++;
    this.addUp();
    // from here on the readings are overwritten by searches
    for (let n = 0; n < MARGINS; n++) this.lines[n].sample(time, margins[n]);
    if (this.options.clearance) this.lines[MARGINS].sample(time, this.clearanceAt(time));
    this.watchSign(time, sign);
    for (let n = 0; n < READINGS; n++) {
      this.watchReading(n, 1);
      this.watchReading(n, -1);
    }
  }

  /** Trapezoids of force squared and of motor power that is given. */
  private addUp(): void {
    const [, before, now] = this.recent;
    const step = this.recentTimes[2] - this.recentTimes[1];
    if (!(step > 0)) return;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const force = 3 * LEG_COUNT + leg;
      const power = 5 * LEG_COUNT + leg;
      this.squares[leg] += (step * (before[force] ** 2 + now[force] ** 2)) / 2;
      this.work[leg] += (step * (Math.max(0, before[power]) + Math.max(0, now[power]))) / 2;
    }
  }

  private watchSign(time: number, sign: number): void {
    if (this.count > 1 && sign !== this.lastSign && this.lastSign !== 0) {
      const before = this.lastSign;
      const isPast = (t: number): boolean => {
        this.look(t);
        return this.readings.sign !== before;
      };
      this.crossings.push(changeBetween(isPast, this.recentTimes[1], time));
    }
    this.lastSign = sign;
  }

  /** Greatest value of a reading, or of its negative: at the sample, and at the top between the last three. */
  private watchReading(n: number, side: 1 | -1): void {
    const { recent, recentTimes, highs, highTimes } = this;
    const at = side > 0 ? n : READINGS + n;
    const z = side * recent[2][n];
    if (z > highs[at]) {
      highs[at] = z;
      highTimes[at] = recentTimes[2];
    }
    if (this.count < 3) return;
    const y = side * recent[1][n];
    const x = side * recent[0][n];
    if (!(y > x && y >= z)) return;
    if (y + DOUBT * Math.max(y - x, y - z) < highs[at]) return;
    const low = lowestBetween(
      (time) => {
        this.look(time);
        return -side * this.readings.values[n];
      },
      recentTimes[0],
      recentTimes[2],
    );
    if (-low.value > highs[at]) {
      highs[at] = -low.value;
      highTimes[at] = low.time;
    }
  }

  report(samples: number, complete: boolean): MotionReport {
    const end = this.recentTimes[2];
    const excursions = this.lines.flatMap((line, n): readonly Excursion[] => {
      line.finish(end);
      const named =
        n < MARGINS
          ? { limit: MOTION_LIMITS[Math.floor(n / LEG_COUNT)], leg: (n % LEG_COUNT) + 1 }
          : { limit: 'clearance' as const, leg: null };
      return line.found.map((found) => ({ ...named, ...found }));
    });
    const time = Math.max(end, Number.MIN_VALUE);
    const watch = this.options.clearance && this.lines[MARGINS];
    return {
      duration: this.path.duration,
      ranges: Array.from({ length: READINGS }, (_, n) => ({
        min: -this.highs[READINGS + n],
        minAt: this.highTimes[READINGS + n],
        max: this.highs[n],
        maxAt: this.highTimes[n],
      })),
      forceRms: this.squares.map((sum) => Math.sqrt(sum / time)),
      energy: this.work,
      excursions: excursions.sort((one, other) => one.from - other.from),
      crossings: this.crossings,
      clearance: watch ? { least: watch.least + (this.options.clearance?.least ?? 0), at: watch.leastAt } : null,
      samples,
      complete,
    };
  }
}

/** Watches one margin over time: keeps its least value, and every stretch below zero. */
class LineWatch {
  least = Number.POSITIVE_INFINITY;
  leastAt = 0;
  readonly found: { from: number; to: number; worst: number; worstAt: number }[] = [];
  private readonly margin: (time: number) => number;
  private open: { from: number; worst: number; worstAt: number } | null = null;
  /** The last two samples, newest last. */
  private t0 = Number.NaN;
  private t1 = Number.NaN;
  private v0 = Number.NaN;
  private v1 = Number.NaN;

  constructor(margin: (time: number) => number) {
    this.margin = margin;
  }

  sample(time: number, value: number): void {
    const { t0, t1, v0, v1 } = this;
    if (Number.isNaN(t1)) {
      if (value < 0) this.open = { from: time, worst: value, worstAt: time };
    } else {
      if (v1 <= v0 && v1 < value) this.dip(t0, time, v0, v1, value);
      if (v1 < 0 !== value < 0) this.cross(t1, time, value);
    }
    if (value < this.least || this.open) this.note(time, value);
    this.t0 = t1;
    this.t1 = time;
    this.v0 = v1;
    this.v1 = value;
  }

  private note(time: number, value: number): void {
    if (value < this.least) [this.least, this.leastAt] = [value, time];
    if (this.open && value < this.open.worst) [this.open.worst, this.open.worstAt] = [value, time];
  }

  /** A local least among three samples: its true value, and a stretch below zero that no sample has seen. */
  private dip(t0: number, t2: number, v0: number, v1: number, v2: number): void {
    if (!Number.isFinite(v1)) return;
    const depth = DOUBT * Math.max(v0 - v1, v2 - v1);
    const unseen = v1 >= 0 && v1 - depth < 0;
    const deeper = v1 - depth < this.least || (this.open !== null && v1 - depth < this.open.worst);
    if (!unseen && !deeper) return;
    const low = lowestBetween(this.margin, t0, t2);
    if (unseen && low.value < 0) {
      // both neighbours keep the limit, or the stretch would be open
      const isPast = (time: number): boolean => this.margin(time) < 0;
      const from = changeBetween(isPast, t0, low.time);
      const to = changeBetween(isPast, low.time, t2);
      this.found.push({ from, to, worst: low.value, worstAt: low.time });
    }
    this.note(low.time, low.value);
  }

  private cross(t1: number, t2: number, v2: number): void {
    const at = changeBetween((time) => this.margin(time) < 0, t1, t2);
    if (v2 < 0) this.open = { from: at, worst: v2, worstAt: t2 };
    else if (this.open) {
      this.found.push({ ...this.open, to: at });
      this.open = null;
    }
  }

  /** Closes a stretch that lasts to the end. */
  finish(time: number): void {
    if (this.open) this.found.push({ ...this.open, to: time });
    this.open = null;
  }
}
