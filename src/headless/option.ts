import { type DesignFault, fault, quoted } from '../document/faults.ts';
import { nearestKey } from '../document/known-keys.ts';
import { numberRemedy, shownLimit, shownRange } from '../document/schema-faults.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { inRange, type NumberRange } from '../terms/number-range.ts';

/**
 * An option of a verb. The functions of this file make them; what an option is worth is asked of the request:
 * `request.get(AT)` has the type that `AT` reads.
 */
export interface Option<out Value> {
  /** Without the two dashes. */
  readonly name: string;
  /** What follows it, as `x,y,z,roll,pitch,yaw`; null for a flag, which nothing follows. */
  readonly follows: string | null;
  /** What must follow it, in the words of the refusal of an option that nothing follows. */
  readonly needs: string;
  /** It may be given more than once. */
  readonly repeated: boolean;
  /** From what was typed behind it, each time it was given; none when it was left out. */
  read(given: readonly string[]): Result<Value, readonly DesignFault[]>;
}

/** A number of an option. */
export interface NamedNumber<Name extends string = string> {
  readonly name: Name;
  readonly range: NumberRange;
}

/** `--all`: true when it is given. */
export const flag = (name: string): Option<boolean> => ({
  name,
  follows: null,
  needs: '',
  repeated: false,
  read: (given) => ok(given.length > 0),
});

/** `--at x,y,z`: so many numbers, separated by commas, each within its range; undefined when left out. */
export function numbers(name: string, list: readonly NamedNumber[]): Option<readonly number[] | undefined> {
  const follows = list.map((number) => number.name).join(',');
  return {
    ...{ name, follows, needs: `followed by ${follows}`, repeated: false },
    read: ([text]) => (text === undefined ? ok(undefined) : readNumbers(name, list, text)),
  };
}

/** `--depth 24`: one number; undefined when left out. */
export function number(name: string, follows: string, range: NumberRange): Option<number | undefined> {
  const one = numbers(name, [{ name: follows, range }]);
  return {
    ...one,
    read(given) {
      const read = one.read(given);
      return read.ok ? ok(read.value?.[0]) : read;
    },
  };
}

/** `--floor condition=9 --floor clearance_mm=2`: numbers by name, each name once. */
export function namedNumbers<Name extends string>(
  name: string,
  list: readonly NamedNumber<Name>[],
): Option<ReadonlyMap<Name, number>> {
  const names = list.map((number) => number.name);
  return {
    name,
    follows: `${names[0]}=value`,
    needs: `followed by name=value with one of ${names.join(', ')}`,
    repeated: true,
    read(given) {
      const values = new Map<Name, number>();
      const faults: DesignFault[] = [];
      for (const text of given) {
        const read = readNamed(name, list, text);
        if (!read.ok) faults.push(...read.fault);
        else if (values.has(read.value.name)) faults.push(givenTwice(`--${name} ${read.value.name}`));
        else values.set(read.value.name, read.value.value);
      }
      return faults.length > 0 ? failed(faults) : ok(values);
    },
  };
}

/** What a text must be like, and how to write it, in the words of a refusal. */
export interface TextRule<Value> {
  /** The value, or null for a text that cannot be used. */
  readonly read: (text: string) => Value | null;
  /** As `i/n with i from 1 to n`. */
  readonly limit: string;
  /** One sentence. */
  readonly remedy: string;
}

/** `--shard 3/64`: a text with a form of its own; undefined when left out. */
export const text = <Value>(name: string, follows: string, rule: TextRule<Value>): Option<Value | undefined> => ({
  ...{ name, follows, needs: `followed by ${follows}`, repeated: false },
  read([typed]) {
    if (typed === undefined) return ok(undefined);
    const value = rule.read(typed);
    if (value !== null) return ok(value);
    return failed([badArgument(`--${name}`, quoted(typed), rule.limit, rule.remedy)]);
  },
});

/** `--kind drawing`: one of a list of words; undefined when left out. */
export const choice = <Word extends string>(name: string, words: readonly Word[]): Option<Word | undefined> =>
  text(name, words.join('|'), {
    read: (typed) => words.find((word) => word === typed) ?? null,
    limit: `one of ${words.join(', ')}`,
    remedy: `Write --${name} ${words[0]}.`,
  });

/** `--out TABLE.csv`: the path of a file, with one of these endings if any are named; undefined when left out. */
export function file(name: string, follows: string, endings: readonly string[] = []): Option<string | undefined> {
  const fits = (path: string): boolean => endings.length === 0 || endings.some((ending) => path.endsWith(ending));
  return text(name, follows, {
    read: (typed) => (typed !== '' && fits(typed) ? typed : null),
    limit: endings.length === 0 ? 'the path of a file' : `a name that ends in ${endings.join(' or ')}`,
    remedy: endings.length === 0 ? `Write --${name} ${follows}.` : 'Rename it.',
  });
}

/** The same option as often as wanted: a list of what it is worth each time, in the order given. */
export const repeated = <Value>(option: Option<Value | undefined>): Option<readonly Value[]> => ({
  ...option,
  repeated: true,
  read(given) {
    const values: Value[] = [];
    const faults: DesignFault[] = [];
    for (const typed of given) {
      const read = option.read([typed]);
      if (!read.ok) faults.push(...read.fault);
      else if (read.value !== undefined) values.push(read.value);
    }
    return faults.length > 0 ? failed(faults) : ok(values);
  },
});

/** Refuses an argument: "<option> is <value>; it must be <limit>. <remedy>" */
export const badArgument = (option: string, value: string, limit: string, remedy: string): DesignFault =>
  fault('outOfRange', option, value, limit, remedy);

/** Refuses what may stand once only. */
export const givenTwice = (place: string): DesignFault =>
  fault('contradiction', place, 'given twice', 'given once', 'Leave one out.');

/** A decimal number as people type it; no hexadecimal, no words. */
const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** Reads the numbers of one option; finds every number out of its range. */
function readNumbers(
  name: string,
  list: readonly NamedNumber[],
  typed: string,
): Result<readonly number[], readonly DesignFault[]> {
  const option = `--${name}`;
  const parts = typed.split(',').map((part) => part.trim());
  const names = list.map((number) => number.name).join(',');
  if (parts.length !== list.length || !parts.every((part) => DECIMAL.test(part))) {
    const limit = list.length === 1 ? 'one number' : `${list.length} numbers ${names}`;
    return failed([badArgument(option, quoted(typed), limit, `Write ${option} ${names}.`)]);
  }
  const faults = list.flatMap((number, index) =>
    rangeFault(list.length === 1 ? option : `${option} ${number.name}`, parts[index], number.range),
  );
  // adding 0 turns -0 into 0
  return faults.length > 0 ? failed(faults) : ok(parts.map((part) => Number(part) + 0));
}

/** Reads `name=value`. */
function readNamed<Name extends string>(
  optionName: string,
  list: readonly NamedNumber<Name>[],
  typed: string,
): Result<{ readonly name: Name; readonly value: number }, readonly DesignFault[]> {
  const option = `--${optionName}`;
  const split = typed.indexOf('=');
  const name = (split < 0 ? typed : typed.slice(0, split)).trim();
  const known = list.find((number) => number.name === name);
  if (!known) {
    const all = list.map((number) => number.name);
    const remedy = `Write ${option} ${nearestKey(name, all) ?? all[0]}=value.`;
    return failed([badArgument(option, quoted(typed), `one of ${all.join(', ')} with a value`, remedy)]);
  }
  const value = split < 0 ? '' : typed.slice(split + 1).trim();
  if (!DECIMAL.test(value)) {
    const limit = 'one number behind the =';
    return failed([badArgument(`${option} ${name}`, quoted(value), limit, `Write ${option} ${name}=value.`)]);
  }
  const faults = rangeFault(`${option} ${name}`, value, known.range);
  return faults.length > 0 ? failed(faults) : ok({ name: known.name, value: Number(value) + 0 });
}

/** None or one fault. */
function rangeFault(place: string, typed: string, range: NumberRange): readonly DesignFault[] {
  const value = Number(typed);
  if (inRange(value, range)) return [];
  if (range.whole && value >= range.min && value <= range.max) {
    return [badArgument(place, typed.slice(0, LONGEST_NUMBER), shownRange(range), 'Write it without a fraction.')];
  }
  return [badArgument(place, typed.slice(0, LONGEST_NUMBER), shownLimit(value, range), numberRemedy(value, range))];
}

/** Characters shown of a number that is refused. */
const LONGEST_NUMBER = 30;
