import { closest, distance } from 'fastest-levenshtein';
import { z } from './zod.ts';

/** Keys that the schema knows at a path, in the order of the file; empty where no object is expected. */
export function knownKeys(schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] {
  let here = branches(schema);
  for (const step of path) here = here.flatMap((branch) => branches(child(branch, step)));
  return here.flatMap((branch) => (branch instanceof z.ZodObject ? Object.keys(branch.shape) : []));
}

/** The alternatives of a union; anything else stands alone. Wrappers (default, optional) are taken off. */
function branches(schema: z.core.$ZodType | null): readonly z.core.$ZodType[] {
  if (schema === null) return [];
  if (schema instanceof z.ZodUnion) return schema.options.flatMap(branches);
  if (schema instanceof z.ZodDefault || schema instanceof z.ZodExactOptional) return branches(schema.unwrap());
  return [schema];
}

function child(schema: z.core.$ZodType, step: PropertyKey): z.core.$ZodType | null {
  if (schema instanceof z.ZodObject && typeof step === 'string' && Object.hasOwn(schema.shape, step)) {
    return schema.shape[step];
  }
  if (schema instanceof z.ZodTuple && typeof step === 'number') return schema.def.items[step] ?? null;
  if (schema instanceof z.ZodArray) return schema.element;
  if (schema instanceof z.ZodRecord) return schema.valueType;
  return null;
}

/** The known key that a mistyped one most likely means, or null. A missing unit counts as one slip. */
export function nearestKey(key: string, known: readonly string[]): string | null {
  if (known.length === 0 || key.length > LONGEST_KEY) return null;
  const plain = key.toLowerCase();
  const withoutUnit = known.find((name) => stem(name) === plain || stem(name) === stem(plain));
  if (withoutUnit) return withoutUnit;
  const near = closest(plain, known);
  return distance(plain, near.toLowerCase()) <= Math.max(2, near.length / 3) ? near : null;
}

/** Longer keys are not compared: no key of the file is near them, and the comparison takes the product of the lengths. */
const LONGEST_KEY = 60;

/** A key without its unit, in small letters. */
const stem = (name: string): string =>
  name.toLowerCase().replace(/(?:_?(?:mm|deg|degrees|rad)|_(?:kg_mm2|n_mm|kg|n))$/, '');
