import { isTiny, type NumberRange } from '../terms/number-range.ts';
import { type NumberName, RANGES } from './ranges.ts';
import { z } from './zod.ts';

/** A number of the file with its limits, named as in the file. */
export function measure(name: NumberName) {
  const range: NumberRange = RANGES[name];
  const kind = range.whole ? z.int() : z.number();
  const above = range.aboveMin ? kind.gt(range.min) : kind.gte(range.min);
  const within = range.belowMax ? above.lt(range.max) : above.lte(range.max);
  return within.refine((value) => !isTiny(value)).describe(range.says);
}

/** Three numbers x, y, z of one name. */
export const vector = (name: NumberName) => z.tuple([measure(name), measure(name), measure(name)]);

/** One of each leg, leg 1 first. */
export function six<Item extends z.ZodType>(item: Item) {
  return z.tuple([item, item, item, item, item, item]);
}
