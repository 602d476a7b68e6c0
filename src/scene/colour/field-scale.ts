import { scaleLinear } from 'd3-scale';
import type { ValueRange } from '../../reach/field/field-range.ts';
import { QUANTITIES, type QuantityName, shownFactor } from '../../terms/quantities.ts';

/** How values become places on a colour map: evenly, by equal factors, or evenly to both sides of zero. */
export type ScaleKind = 'linear' | 'logarithmic' | 'signed';

/** A named place on the scale. */
export interface ScaleTick {
  /** As the legend writes it, in the unit shown. */
  readonly text: string;
  /** 0 to 1. */
  readonly share: number;
}

/** The colour scale of one quantity over one reach. */
export interface FieldScale {
  readonly quantity: QuantityName;
  readonly kind: ScaleKind;
  /** Values at the two ends of the map, inner unit. */
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly ScaleTick[];
  /** Share of the scale from one contour line to the next. */
  readonly contour: number;
}

/** Positive values that spread by more than this factor are shown by equal factors. */
const WIDE_SPREAD = 5;

/** Ends of the map this close to a value, as a share of the map, are the value itself but for rounding. */
const SAME_PLACE = 1e-9;

/** A value below zero by less than this share of the range is rounding on the edge of the reach. */
const ROUNDING = 1e-3;

/** Numbers named on a legend, about. */
const TICKS = 5;

/** Lays a colour scale over the values of a quantity. */
export function fieldScale(quantity: QuantityName, range: ValueRange): FieldScale {
  const { scale } = QUANTITIES[quantity];
  if (scale === 'signed' || (scale === 'fromZero' && range.low < -ROUNDING * Math.abs(range.high)))
    return evenScale(quantity, 'signed', -largest(range), largest(range), range);
  if (scale === 'fromZero') return evenScale(quantity, 'linear', 0, range.high, range);
  if (range.low > 0 && range.high > WIDE_SPREAD * range.low) return logScale(quantity, range);
  return evenScale(quantity, 'linear', range.low, range.high, range);
}

const largest = ({ low, high }: ValueRange): number => Math.max(Math.abs(low), Math.abs(high));

function evenScale(
  quantity: QuantityName,
  kind: 'linear' | 'signed',
  from: number,
  to: number,
  range: ValueRange,
): FieldScale {
  const factor = shownFactor(quantity);
  const spread = to > from ? to - from : Math.abs(to) || 1;
  const nice = scaleLinear([from * factor, (from + spread) * factor], [0, 1]).nice(TICKS);
  const [low, high] = nice.domain();
  const ticks = nice.ticks(TICKS);
  const share = (value: number) => (value - low) / (high - low);
  return {
    quantity,
    kind,
    low: low / factor,
    high: high / factor,
    ticks: named(
      ticks,
      share,
      (value) => openEnds(value * (1 / factor), low / factor, high / factor, range),
      decimalsOf(ticks),
    ),
    contour: ticks.length > 1 ? share(ticks[1]) / 2 : 0.1,
  };
}

/** Steps of 1, 2 and 5 within a decade. */
const LOG_STEPS = [1, 2, 5];

function logScale(quantity: QuantityName, range: ValueRange): FieldScale {
  const stops: number[] = [];
  for (let power = Math.floor(Math.log10(range.low)); 10 ** power <= range.high; power++)
    for (const step of LOG_STEPS) stops.push(Number(`${step}e${power}`));
  stops.push(10 * (stops.at(-3) ?? 1));
  const low = stops.findLast((stop) => stop <= range.low) ?? range.low;
  const high = stops.find((stop) => stop >= range.high) ?? range.high;
  const span = Math.log(high / low);
  const share = (value: number) => Math.log(value / low) / span;
  const inside = stops.filter((stop) => stop >= low && stop <= high);
  // over many decades only the powers of ten
  const ticks = inside.length > TICKS + 2 ? inside.filter(isEndOrPower(low, high)) : inside;
  const open = (value: number) => openEnds(value, low, high, range);
  return { quantity, kind: 'logarithmic', low, high, ticks: named(ticks, share, open), contour: 1 / 12 };
}

const isEndOrPower = (low: number, high: number) => (value: number) =>
  value === low || value === high || Math.abs(Math.log10(value) - Math.round(Math.log10(value))) < SAME_PLACE;

/** Says that values go on past an end of the map. */
function openEnds(value: number, low: number, high: number, { min, max }: ValueRange): '' | '+' | '−' {
  const nearly = (end: number) => Math.abs(value - end) <= SAME_PLACE * (high - low);
  if (nearly(high) && max > high) return '+';
  return nearly(low) && min < low - SAME_PLACE * (high - low) ? '−' : '';
}

/** Digits behind the point that tell evenly spaced ticks apart. */
const decimalsOf = ([first, second]: readonly number[]): number | null =>
  second === undefined ? null : Math.max(0, -Math.floor(Math.log10(second - first) + SAME_PLACE));

/** Ticks with their texts; `decimals` gives all of them as many digits, null each its own. */
const named = (
  ticks: readonly number[],
  share: (value: number) => number,
  open: (value: number) => string,
  decimals: number | null = null,
): readonly ScaleTick[] =>
  ticks.map((value) => {
    const size = Math.abs(value);
    const digits = decimals === null ? String(Number(size.toPrecision(3))) : size.toFixed(decimals);
    const text = value < 0 && Number(digits) > 0 ? `−${digits}` : digits;
    const ending = open(value);
    return { text: ending === '−' ? `≤ ${text}` : `${text}${ending}`, share: share(value) };
  });

/** Place of a value on the map, 0 to 1, held at the ends; NaN where there is none. */
export function fieldShare({ kind, low, high }: FieldScale, value: number): number {
  const share = kind === 'logarithmic' ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  return Math.max(0, Math.min(1, share));
}

/** A byte that says how a point is drawn. */
export const POINT_MARK = { plain: 0, missed: 1, none: 2 } as const;

/**
 * Writes the places of values on the map as bytes, and how each point is drawn: plainly, as missing a floor, or as having no
 * value because it is singular.
 * @param missed 1 where a floor is missed; null without floors
 */
export function writeFieldColours(
  values: Float32Array,
  scale: FieldScale,
  missed: Uint8Array | null,
  shares: { [index: number]: number },
  marks: { [index: number]: number },
): void {
  const { kind, low, high } = scale;
  const log = kind === 'logarithmic';
  const factor = 255 / (log ? Math.log(high / low) : high - low);
  for (let n = 0; n < values.length; n++) {
    const value = values[n];
    const place = factor * (log ? Math.log(value / low) : value - low);
    // not a number compares as false, so it comes out as 0 here and is marked below
    shares[n] = place > 255 ? 255 : place > 0 ? Math.round(place) : 0;
    marks[n] = Number.isNaN(value) ? POINT_MARK.none : missed?.[n] === 1 ? POINT_MARK.missed : POINT_MARK.plain;
  }
}
