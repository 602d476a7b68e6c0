import { LEG_COUNT } from '../../kinematics/layout.ts';
import { LEG_READINGS, type LegReadings } from '../../motion/follow/leg-readings.ts';

/** First letters and units of the columns of each reading, in the order of LEG_READINGS. */
const COLUMNS: Readonly<Record<(typeof LEG_READINGS)[number], readonly [string, string]>> = {
  length: ['l', 'mm'],
  speed: ['v', 'mm_s'],
  acceleration: ['a', 'mm_s2'],
  force: ['f', 'N'],
  driveForce: ['drive', 'N'],
  power: ['power', 'W'],
};

/** Digits of a number in a table: 1e-9 of it, a thousandth of any tolerance that it is compared with. */
const DIGITS = 10;

/**
 * A motion as CSV (RFC 4180): time, then lengths, speeds, accelerations, forces between barrel and rod, forces of the drives with
 * friction, efficiency and rotor, and powers of the drives, each of the six legs.
 */
export class MotionTable {
  private readonly lines: string[];

  constructor() {
    const names = LEG_READINGS.flatMap((reading) => {
      const [letter, unit] = COLUMNS[reading];
      return Array.from({ length: LEG_COUNT }, (_, leg) => `${letter}${leg + 1}_${unit}`);
    });
    this.lines = [['t_s', ...names].join(',')];
  }

  add(time: number, readings: LegReadings): void {
    let line = shown(time);
    for (const value of readings.values) line += `,${shown(value)}`;
    this.lines.push(line);
  }

  text(): string {
    return `${this.lines.join('\r\n')}\r\n`;
  }
}

/** A plain number; a value that does not exist is an empty field. */
function shown(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS)) + 0) : '';
}
