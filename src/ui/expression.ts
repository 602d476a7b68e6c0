import { create, type MathNode, parseDependencies } from 'mathjs';
import { failed, ok, type Result } from '../math/result.ts';
import type { FieldUnit } from '../words/units.ts';
import { isPlain, NAMED, ONE_OF_FIELD, type Powers, type Quantity, sameKind } from './unit-table.ts';

/** Only the reader of expressions: what it reads is worked out below, from a list of what is allowed. */
const { parse } = create({ parseDependencies });

/** What a number field does not read, by the sign that gives it away, and what it is called in the refusal. */
const REFUSED_SIGNS: readonly (readonly [sign: RegExp, what: string])[] = [
  [/#/, 'a remark'],
  [/=/, 'something that sets or compares a name'],
  [/[?:]/, 'a condition or a range'],
  [/[;\n\r]/, 'several sums'],
  [/[{}[\]]/, 'a list or an object'],
  [/["'`]/, 'text in quotes'],
  [/[^\d\p{L}\s.+\-*/^()]/u, 'a sign'],
];

const REMEDY = 'a number field takes numbers, units, pi, sqrt, + − * / ^ and brackets';

/**
 * What a part of an expression comes to, or why it is not worked out: the second half of a sentence about the entry.
 */
type Worked = Result<Quantity, string>;

/**
 * Value of a sum with units such as `35*2`, `2.75in`, `100 + 2.5 mm` or `1/3 rad`, in the field's unit. A result
 * without a unit, and a number without one in a sum with the field's own unit, is taken to be in the field's unit.
 * Nothing is compiled or run: the parsed tree is walked, and what is not on the list of allowed parts is refused with a
 * reason.
 */
export function evaluateIn(text: string, unit: FieldUnit): Result<number, string> {
  const shown = `"${text}"`;
  for (const [sign, what] of REFUSED_SIGNS) {
    const found = sign.exec(plainSigns(text));
    if (found) return failed(`${shown} has ${what} (${found[0].trim() || 'a new line'}); ${REMEDY}.`);
  }
  const tree = parsed(plainSigns(text));
  if (tree === null) return failed(`${shown} is not a number or a sum with units.`);
  const field = ONE_OF_FIELD[unit];
  const worked = workOut(tree, { field, unit, foreign: foreignUnit(tree, unit) });
  if (!worked.ok) return failed(`${shown} ${worked.fault}.`);
  const { value } = worked;
  if (!isPlain(value) && !sameKind(value, field)) {
    return failed(`${shown} cannot be turned into ${unit === '' ? 'a plain number' : unit}.`);
  }
  const number = isPlain(value) ? value.value : value.value / field.value;
  return Number.isFinite(number) ? ok(number) : failed(`${shown} has no finite value.`);
}

/** Signs of print as the reader knows them; `in` is spelt out, because to the reader it is a word for a conversion. */
const plainSigns = (text: string): string =>
  text
    .replaceAll('°', ' deg')
    .replaceAll('−', '-')
    .replaceAll('×', '*')
    .replaceAll('·', '*')
    .replaceAll('μ', 'µ')
    .replace(/(?<!\p{L})in(?!\p{L})/gu, 'inch');

function parsed(text: string): MathNode | null {
  try {
    return parse(text);
  } catch {
    return null;
  }
}

interface Reading {
  /** One of the field's unit. */
  readonly field: Quantity;
  readonly unit: FieldUnit;
  /** A unit of the whole expression that is not part of the field's own; null if there is none. */
  readonly foreign: string | null;
}

/** The first unit that an expression names and that the field's own does not. */
function foreignUnit(tree: MathNode, unit: FieldUnit): string | null {
  const own: readonly string[] = unit.match(/\p{L}+/gu) ?? [];
  let foreign: string | null = null;
  tree.traverse((node) => {
    const name = nameOf(node);
    const named = name === null ? undefined : NAMED.get(name);
    if (name !== null && named && !isPlain(named) && !own.includes(name)) foreign ??= name;
  });
  return foreign;
}

const nameOf = (node: MathNode): string | null =>
  node.type === 'SymbolNode' && 'name' in node && typeof node.name === 'string' ? node.name : null;

/** Works out one part of an expression. */
function workOut(node: MathNode, reading: Reading): Worked {
  switch (node.type) {
    case 'ConstantNode':
      return constant(node);
    case 'SymbolNode':
      return named(nameOf(node) ?? '');
    case 'ParenthesisNode':
      return 'content' in node && isNode(node.content) ? workOut(node.content, reading) : notAllowed(node);
    case 'OperatorNode':
    case 'FunctionNode':
      return applied(node, reading);
    default:
      return notAllowed(node);
  }
}

const isNode = (part: unknown): part is MathNode => typeof part === 'object' && part !== null && 'type' in part;

const notAllowed = (node: MathNode): Worked => failed(`has "${node.toString()}" in it; ${REMEDY}`);

const constant = (node: MathNode): Worked =>
  'value' in node && typeof node.value === 'number' ? ok(plain(node.value)) : notAllowed(node);

const named = (name: string): Worked => {
  const known = NAMED.get(name);
  if (known) return ok(known);
  return failed(`is not a number or a sum with units: ${name} is no unit that is known here`);
};

const plain = (value: number): Quantity => ({ value, powers: [0, 0, 0, 0] });

/** An operator or a function with its arguments. */
function applied(node: MathNode, reading: Reading): Worked {
  if (!('args' in node && Array.isArray(node.args))) return notAllowed(node);
  const values: Quantity[] = [];
  for (const argument of node.args) {
    if (!isNode(argument)) return notAllowed(node);
    const value = workOut(argument, reading);
    if (!value.ok) return value;
    values.push(value.value);
  }
  const [first, second] = values;
  const name = operation(node);
  if (values.length === 1 && first) {
    if (name === 'unaryPlus') return ok(first);
    if (name === 'unaryMinus') return ok({ value: -first.value, powers: first.powers });
    if (name === 'sqrt') return ok(power(first, 0.5));
  }
  if (values.length === 2 && first && second) {
    if (name === 'add') return sum(first, second, 1, reading);
    if (name === 'subtract') return sum(first, second, -1, reading);
    if (name === 'multiply') return ok(product(first, second, 1));
    if (name === 'divide') return ok(product(first, second, -1));
    if (name === 'pow') {
      return isPlain(second) ? ok(power(first, second.value)) : failed('has an exponent with a unit');
    }
  }
  return notAllowed(node);
}

/** What an operator or a function is called; empty for one without a plain name. */
function operation(node: MathNode): string {
  if (!('fn' in node)) return '';
  if (node.type === 'OperatorNode') return typeof node.fn === 'string' ? node.fn : '';
  return isNode(node.fn) ? (nameOf(node.fn) ?? '') : '';
}

/** A sum or a difference; a part without a unit takes the field's where nothing but the field's own unit is named. */
function sum(first: Quantity, second: Quantity, sign: 1 | -1, { field, unit, foreign }: Reading): Worked {
  if (sameKind(first, second)) return ok({ value: first.value + sign * second.value, powers: first.powers });
  const bare = isPlain(first) ? first : isPlain(second) ? second : null;
  if (unit === '') return failed('cannot be turned into a plain number');
  if (!bare) return failed('adds quantities of different kinds');
  const other = bare === first ? second : first;
  if (foreign !== null || !sameKind(other, field)) {
    return failed(`adds ${bare.value}, which has no unit, to what has one; write its unit, or leave all out`);
  }
  const own = (part: Quantity) => (isPlain(part) ? part.value * field.value : part.value);
  return ok({ value: own(first) + sign * own(second), powers: field.powers });
}

const product = (first: Quantity, second: Quantity, sign: 1 | -1): Quantity => ({
  value: sign === 1 ? first.value * second.value : first.value / second.value,
  powers: eachPower(first, (power, index) => power + sign * (second.powers[index] ?? 0)),
});

const power = (base: Quantity, exponent: number): Quantity => ({
  value: base.value ** exponent,
  powers: eachPower(base, (old) => (old === 0 ? 0 : old * exponent)),
});

function eachPower({ powers }: Quantity, change: (power: number, index: number) => number): Powers {
  const [length, mass, time, angle] = powers;
  return [change(length, 0), change(mass, 1), change(time, 2), change(angle, 3)];
}
