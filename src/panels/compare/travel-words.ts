import type { FreedomLine } from '../../jobs/compare-jobs.ts';
import { degrees } from '../../terms/units.ts';
import { stopWords } from '../../words/limits.ts';

/** Unit in which one of the six numbers of a pose is shown. */
export const freedomUnit = (index: number): 'mm' | 'deg' => (index < 3 ? 'mm' : 'deg');

/** A length or an angle of one of the six numbers as it is shown [mm or rad -> mm or deg]. */
export const shownAmount = (value: number, index: number): number => (index < 3 ? value : degrees(value));

/** Ends of a line as distances from home [mm or deg]. */
export function travelFrom(
  { values, home }: FreedomLine,
  index: number,
): { readonly down: number; readonly up: number } {
  const from = (value: number) => shownAmount(value - home, index);
  return { down: from(values[0]), up: from(values[values.length - 1]) };
}

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;

/** "−31.2 to +31.2"; an end that no limit stops is in brackets. */
export function travelText(line: FreedomLine, index: number): string {
  const { down, up } = travelFrom(line, index);
  const low = line.down ? signed(down) : `(${signed(down)})`;
  const high = line.up ? signed(up) : `(${signed(up)})`;
  return `${low} to ${high}`;
}

/** What stops a line at its ends: "leg 3 too short below, leg 1 too long above". */
export function stopsText({ down, up }: FreedomLine): string {
  const end = (stop: FreedomLine['up']) => (stop ? stopWords(stop.leg, stop.limit) : 'nothing found');
  return `${end(down)} below, ${end(up)} above`;
}
