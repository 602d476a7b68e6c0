import { failed, ok, type Result } from '../math/result.ts';
import type { FieldUnit } from '../words/units.ts';

/** Longest text that is read as a number. */
const LONGEST_TEXT = 80;

const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;

/** A plain number, the field's own unit allowed behind it; null for anything else. */
export function readPlainNumber(text: string, unit: FieldUnit): number | null {
  const trimmed = text.trim().replace('−', '-');
  const bare = unit !== '' && trimmed.endsWith(unit) ? trimmed.slice(0, -unit.length).trimEnd() : trimmed;
  if (!PLAIN.test(bare)) return null;
  const value = Number(bare);
  return Number.isFinite(value) ? value : null;
}

/**
 * The number that a person typed, in the field's unit: plain numbers at once, sums with units after the expression
 * reader has been loaded. The fault is a sentence for the person.
 */
export async function readNumber(text: string, unit: FieldUnit): Promise<Result<number, string>> {
  const plain = readPlainNumber(text, unit);
  if (plain !== null) return ok(plain);
  const trimmed = text.trim();
  if (trimmed === '') return failed('The field is empty.');
  if (trimmed.length > LONGEST_TEXT) return failed(`The text is longer than ${LONGEST_TEXT} characters.`);
  if (/^[^,]*\d,\d[^,]*$/.test(trimmed)) return failed(`"${trimmed}" has a comma; write decimals with a point.`);
  try {
    const { evaluateIn } = await import('./expression.ts');
    return evaluateIn(trimmed, unit);
  } catch {
    return failed('Sums could not be read now; type a plain number.');
  }
}
