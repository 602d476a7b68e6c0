import { median } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { PoseCurve, Wall, WallCause } from '../../reach/field/curves.ts';
import { QUANTITIES, type QuantityName, shownValue } from '../../terms/quantities.ts';
import { tickText } from '../../words/numbers.ts';
import { shownNumber } from './curve-words.ts';

export type Scale = ScaleLinear<number, number>;

/** Values this many times the middle one are let out of the picture: near a singular pose they have no bound. */
const LARGEST_SHARE = 5;

/** Room above the largest value drawn. */
const HEADROOM = 1.12;

/** One scale for the quantity of all six curves: what the usable stretches hold, and where it starts. */
export function valueScale(curves: readonly PoseCurve[], quantity: QuantityName, height: number): Scale {
  const values = curves.flatMap((curve) => usableValues(curve, quantity));
  const floor = QUANTITIES[quantity].origin;
  const middle = median(values.map(Math.abs)) ?? 1;
  const bound = LARGEST_SHARE * Math.max(middle, Number.MIN_VALUE);
  const inside = values.map((value) => Math.min(Math.max(value, -bound), bound));
  const high = Math.max(floor, ...inside);
  const low = Math.min(floor, ...inside);
  const top = high > floor ? floor + (high - floor) * HEADROOM : floor + (low < floor ? 0 : 1);
  return scaleLinear([low < floor ? floor + (low - floor) * HEADROOM : floor, top], [height, 0]).nice(4);
}

function usableValues({ at, quantities, usable }: PoseCurve, quantity: QuantityName): readonly number[] {
  const samples = quantities[quantity];
  if (!samples) return [];
  const inside = (value: number) => usable === null || (value >= usable.low && value <= usable.high);
  return Array.from(samples, (value) => shownValue(quantity, value)).filter(
    (value, n) => Number.isFinite(value) && inside(at[n]),
  );
}

/** Scale of one pose number, millimetres or degrees, over what its curve shows. */
export const numberScale = ({ at }: PoseCurve, index: number, width: number): Scale =>
  scaleLinear([shownNumber(at[0], index), shownNumber(at[at.length - 1], index)], [0, width]);

/** Width of a digit or sign of a tick's number, and the least gap between two numbers [px]. */
const DIGIT_WIDTH = 5.9;
const TICK_GAP = 5;

/** A number nearer to an edge than this would stick out of the picture [px]. */
const EDGE_ROOM = 13;

/** Most numbers along one small axis. */
const MOST_TICKS = 7;

/** Which part of a number stands at its place `at` along an axis [px]: close to an edge it is turned inside. */
export const numberAnchor = (at: number, width: number): 'start' | 'middle' | 'end' =>
  at < EDGE_ROOM ? 'start' : at > width - EDGE_ROOM ? 'end' : 'middle';

/** The most round numbers along an axis that fit beside each other. */
export function fittingTicks(x: Scale, width: number): readonly number[] {
  for (let count = MOST_TICKS; count > 0; count--) {
    const ticks = x.ticks(count);
    if (ticks.length < 2) return ticks;
    const widest = DIGIT_WIDTH * Math.max(...ticks.map((tick) => tickText(tick, ticks).length));
    // a number turned inside at an edge comes nearer to the next by half of itself
    const turned = [ticks[0], ticks[ticks.length - 1]].some((tick) => numberAnchor(x(tick), width) !== 'middle');
    const apart = x(ticks[1]) - x(ticks[0]) - (turned ? widest / 2 : 0);
    if (apart >= widest + TICK_GAP) return ticks;
  }
  return [];
}

/** The path of a quantity; broken where it has no bound. */
export function curvePath(
  { at, quantities }: PoseCurve,
  index: number,
  quantity: QuantityName,
  x: Scale,
  y: Scale,
): string {
  const samples = quantities[quantity];
  if (!samples) return '';
  const [bottom, top] = y.domain();
  // far outside of the picture is as good as at its edge, and keeps numbers short
  const bound = (value: number) => Math.min(Math.max(value, 2 * bottom - top), 2 * top - bottom);
  const draw = line<number>()
    .defined((_, n) => !Number.isNaN(samples[n]))
    .x((value) => round(x(shownNumber(value, index))))
    .y((_, n) => round(y(bound(shownValue(quantity, samples[n])))));
  return draw(Array.from(at)) ?? '';
}

const round = (pixel: number): number => Math.round(pixel * 10) / 10;

/** How a wall is drawn. */
export type WallKind = 'leg' | 'joint' | 'singular';

/** What each kind of wall is, in the order of the legend. */
export const WALL_WORDS: Readonly<Record<WallKind, string>> = {
  leg: 'leg at its end',
  joint: 'joint at its limit',
  singular: 'singular pose',
};

export const WALL_KINDS: readonly WallKind[] = ['leg', 'joint', 'singular'];

export interface DrawnWall {
  /** [px] */
  readonly x: number;
  /** Value of the number [mm or rad]. */
  readonly at: number;
  readonly kind: WallKind;
  /** It ends the usable stretch. */
  readonly ends: boolean;
}

const wallKind = (cause: WallCause): WallKind => {
  if (cause.kind === 'singular') return 'singular';
  return cause.limit.limit === 'legTooShort' || cause.limit.limit === 'legTooLong' ? 'leg' : 'joint';
};

/** Walls closer together than this, of one kind, are drawn as one [px]. */
const TOGETHER = 0.8;

/** The walls in the picture. */
export function drawnWalls({ walls, usable }: PoseCurve, index: number, x: Scale): readonly DrawnWall[] {
  const drawn: DrawnWall[] = [];
  const place = ({ at }: Wall) => x(shownNumber(at, index));
  const ends = usable ? [usable.low, usable.high].map((at) => x(shownNumber(at, index))) : [];
  for (const wall of walls) {
    const at = place(wall);
    const kind = wallKind(wall.cause);
    if (drawn.some((other) => other.kind === kind && Math.abs(other.x - at) < TOGETHER)) continue;
    drawn.push({ x: at, at: wall.at, kind, ends: ends.some((end) => Math.abs(end - at) < TOGETHER) });
  }
  return drawn;
}

/** The sample nearest to a value of the number. */
export function nearestSample({ at }: PoseCurve, value: number): number {
  const last = at.length - 1;
  const place = ((value - at[0]) / (at[last] - at[0])) * last;
  return Math.min(last, Math.max(0, Math.round(place)));
}
