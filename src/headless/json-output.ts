/** What JSON can hold. */
type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/**
 * A result as JSON text with two spaces; lists of plain values stay on one line. Numbers that JSON cannot hold become
 * null: a condition number of null is infinite. Typed arrays become lists, -0 becomes 0.
 */
export const jsonText = (value: unknown): string => `${written(plain(value), '')}\n`;

function plain(value: unknown): Json {
  if (typeof value === 'number') return Number.isFinite(value) ? value + 0 : null;
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (value instanceof Float64Array) return Array.from(value, plain);
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value === 'object') {
    const entries = Object.entries(value).filter(([, item]) => item !== undefined);
    return Object.fromEntries(entries.map(([key, item]) => [key, plain(item)]));
  }
  throw new Error(`no JSON for a ${typeof value}`);
}

function written(value: Json, indent: string): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const deeper = `${indent}  `;
  if (isList(value)) {
    if (value.every((item) => typeof item !== 'object' || item === null)) return `[${value.map(one).join(', ')}]`;
    return `[\n${value.map((item) => deeper + written(item, deeper)).join(',\n')}\n${indent}]`;
  }
  const lines = Object.entries(value).map(([key, item]) => `${deeper}${JSON.stringify(key)}: ${written(item, deeper)}`);
  return lines.length === 0 ? '{}' : `{\n${lines.join(',\n')}\n${indent}}`;
}

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

const one = (value: Json): string => JSON.stringify(value);
