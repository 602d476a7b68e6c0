import { median } from 'd3-array';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { PoseCurve, Wall, WallCause } from '../../reach/curves.ts';
import type { FieldQuantity } from '../../reach/field-quantities.ts';
import { shownNumber, shownValue } from './curve-words.ts';

export type Scale = ScaleLinear<number, number>;

/** Values this many times the middle one are let out of the picture: near a singular pose they have no bound. */
const LARGEST_SHARE = 5;

/** Room above the largest value drawn. */
const HEADROOM = 1.12;

/** One scale for the quantity of all six curves: what the usable stretches hold, and zero (for a condition, one). */
export function valueScale(curves: readonly PoseCurve[], quantity: FieldQuantity, height: number): Scale {
  const values = curves.flatMap((curve) => usableValues(curve, quantity));
  const floor = quantity === 'condition' ? 1 : 0;
  const middle = median(values.map(Math.abs)) ?? 1;
  const bound = LARGEST_SHARE * Math.max(middle, Number.MIN_VALUE);
  const inside = values.map((value) => Math.min(Math.max(value, -bound), bound));
  const high = Math.max(floor, ...inside);
  const low = Math.min(floor, ...inside);
  const top = high > floor ? floor + (high - floor) * HEADROOM : floor + (low < floor ? 0 : 1);
  return scaleLinear([low < floor ? floor + (low - floor) * HEADROOM : floor, top], [height, 0]).nice(4);
}

function usableValues({ at, quantities, usable }: PoseCurve, quantity: FieldQuantity): readonly number[] {
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

/** The path of a quantity; broken where it has no bound. */
export function curvePath(
  { at, quantities }: PoseCurve,
  index: number,
  quantity: FieldQuantity,
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
