import {
  addDependencies,
  create,
  divideDependencies,
  evaluateDependencies,
  multiplyDependencies,
  piDependencies,
  powDependencies,
  sqrtDependencies,
  subtractDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
  unitDependencies,
} from 'mathjs';
import { failed, ok, type Result } from '../math/result.ts';
import type { FieldUnit } from '../words/units.ts';

/** Only what sums with units need: no ranges, matrices or functions that could ask for much memory. */
const math = create({
  evaluateDependencies,
  unitDependencies,
  addDependencies,
  subtractDependencies,
  multiplyDependencies,
  divideDependencies,
  powDependencies,
  sqrtDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
  piDependencies,
});

const evaluate = math.evaluate;

const refuse = (): never => {
  throw new Error('not available in a number field');
};

// what an expression must not reach: it could change the evaluator or start another one
math.import(
  { import: refuse, createUnit: refuse, evaluate: refuse, parse: refuse, config: refuse },
  { override: true },
);

/**
 * Value of a sum with units such as `35*2`, `2.75in`, `100 + 2.5 mm` or `1/3 rad`, in the field's unit; a result without a unit, and a
 * number without one beside numbers in the field's unit, is taken to be in the field's unit.
 */
export function evaluateIn(text: string, unit: FieldUnit): Result<number, string> {
  const shown = `"${text}"`;
  const written = text.replaceAll('°', ' deg').replaceAll('−', '-');
  const value = evaluated(written) ?? (unit === '' ? null : evaluated(withoutOwnUnit(written, unit)));
  if (value === null) return failed(`${shown} is not a number or a sum with units.`);
  const number = typeof value === 'number' ? value : unitNumber(value, unit);
  if (number === null) return failed(`${shown} cannot be turned into ${unit === '' ? 'a plain number' : unit}.`);
  return Number.isFinite(number) ? ok(number) : failed(`${shown} has no finite value.`);
}

/** What an expression comes to; null where it means nothing. */
function evaluated(text: string): unknown {
  try {
    return evaluate(text);
  } catch {
    return null;
  }
}

/** The text without the field's own unit, so that only numbers are left of a sum that names it now and then. */
const withoutOwnUnit = (text: string, unit: FieldUnit): string =>
  text
    .split(/([a-zµ]+)/i)
    .map((part) => (part === unit ? '' : part))
    .join('');

/** The number of a mathjs unit in the field's unit; null for another dimension or another kind of value. */
function unitNumber(value: unknown, unit: FieldUnit): number | null {
  if (unit === '' || !math.isUnit(value)) return null;
  return value.equalBase(math.unit(1, unit)) ? value.toNumber(unit) : null;
}
