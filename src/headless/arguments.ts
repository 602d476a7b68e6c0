import { parseArgs } from 'node:util';
import { type DesignFault, fault, quoted } from '../document/faults.ts';
import { nearestKey } from '../document/known-keys.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { type OptionSpec, type OptionValues, readNamed, readNumbers } from './options.ts';
import type { Verb } from './verb.ts';

/** What was asked for. */
export type Request =
  | { readonly kind: 'help' }
  | { readonly kind: 'verb'; readonly verb: Verb; readonly file: string; readonly options: OptionValues };

type Token = ReturnType<typeof tokensOf>[number];
type OptionToken = Extract<Token, { kind: 'option' }>;

/** Reads the arguments after the program's own name; every fault is found, not only the first. */
export function readArguments(
  argv: readonly string[],
  verbs: ReadonlyMap<string, Verb>,
): Result<Request, readonly DesignFault[]> {
  if (argv.length === 0) return failed([verbFault('missing', verbs)]);
  const words = tokensOf(argv, []).filter(({ kind }) => kind === 'positional');
  const first = words.at(0);
  const name = first?.kind === 'positional' ? first.value : '';
  const verb = verbs.get(name);
  const tokens = tokensOf(argv, verb?.options ?? []);
  if (tokens.some((token) => token.kind === 'option' && token.name === 'help')) return ok({ kind: 'help' });
  if (!verb) return failed([verbFault(name === '' ? 'missing' : quoted(name), verbs)]);
  return readRequest(verb, name, tokens);
}

function readRequest(verb: Verb, name: string, tokens: readonly Token[]): Result<Request, readonly DesignFault[]> {
  const faults: DesignFault[] = [];
  const [, file, ...others] = tokens.flatMap((token) => (token.kind === 'positional' ? [token.value] : []));
  if (file === undefined) {
    const limit = 'a design file, or - for standard input';
    faults.push(fault('missing', 'FILE', 'missing', limit, `Write ${name} FILE.`));
  }
  for (const other of others) {
    faults.push(fault('unknownKey', quoted(other), 'one argument too many', 'left out', 'Give one design file.'));
  }
  const options = new Map<string, readonly number[]>();
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const read = readOption(verb, token);
    if (!read.ok) faults.push(...read.fault);
    else if (options.has(read.value.key)) {
      const [, name] = read.value.key.split(' ');
      const place = name === undefined ? token.rawName : `${token.rawName} ${name}`;
      faults.push(fault('contradiction', place, 'given twice', 'given once', 'Leave one out.'));
    } else options.set(read.value.key, read.value.numbers);
  }
  return faults.length > 0 || file === undefined ? failed(faults) : ok({ kind: 'verb', verb, file, options });
}

/** An option as it goes into the values. */
interface ReadOption {
  readonly key: string;
  readonly numbers: readonly number[];
}

function readOption(verb: Verb, token: OptionToken): Result<ReadOption, readonly DesignFault[]> {
  const spec = verb.options.find(({ name }) => name === token.name);
  if (!spec) return failed([unknownOption(verb, token)]);
  const key = spec.name;
  if (spec.named) {
    if (token.value === undefined) return failed([noNumbers(spec)]);
    const read = readNamed(spec, spec.named, token.value);
    return read.ok ? ok({ key: read.value.key, numbers: [read.value.value] }) : read;
  }
  if (spec.numbers.length > 0) {
    if (token.value === undefined) return failed([noNumbers(spec)]);
    const read = readNumbers(spec, token.value);
    return read.ok ? ok({ key, numbers: read.value }) : read;
  }
  if (token.value === undefined) return ok({ key, numbers: [] });
  return failed([fault('wrongType', token.rawName, quoted(token.value), 'without a value', `Write ${token.rawName}.`)]);
}

function unknownOption(verb: Verb, token: OptionToken): DesignFault {
  const known = [...verb.options.map(({ name }) => name), 'help'];
  const near = nearestKey(token.name, known);
  const limit = `one of ${known.map((name) => `--${name}`).join(', ')}`;
  const shown = /^--?[\w-]{1,40}$/.test(token.rawName) ? token.rawName : quoted(token.rawName);
  return fault('unknownKey', shown, 'an unknown option', limit, near ? `Write --${near}.` : 'Leave it out.');
}

function noNumbers({ name, numbers, named }: OptionSpec): DesignFault {
  if (named) {
    const limit = `followed by name=value with one of ${named.map((number) => number.name).join(', ')}`;
    return fault(
      'missing',
      `--${name}`,
      'without its name and value',
      limit,
      `Write --${name} ${named[0].name}=value.`,
    );
  }
  const names = numbers.map((number) => number.name).join(',');
  return fault('missing', `--${name}`, 'without its numbers', `followed by ${names}`, `Write --${name} ${names}.`);
}

/** The verb that takes its arguments apart itself. */
const EXPLORE_VERB = 'explore';

function verbFault(value: string, verbs: ReadonlyMap<string, Verb>): DesignFault {
  const names = [...verbs.keys(), EXPLORE_VERB];
  const near = nearestKey(value.replaceAll('"', ''), names);
  const remedy = near ? `Write ${near}, or --help for a list.` : 'Write --help for a list.';
  return fault(value === 'missing' ? 'missing' : 'unknownKey', 'The verb', value, `one of ${names.join(', ')}`, remedy);
}

/** Tokens in the order given. Not strict: a number list may begin with a minus sign, and faults are worded here. */
function tokensOf(argv: readonly string[], specs: readonly OptionSpec[]) {
  const options = Object.fromEntries(
    specs.map(({ name, numbers, named }) => [
      name,
      { type: numbers.length > 0 || named ? ('string' as const) : ('boolean' as const) },
    ]),
  );
  const help = { type: 'boolean' as const, short: 'h' };
  return parseArgs({
    args: [...argv],
    options: { ...options, help },
    strict: false,
    allowPositionals: true,
    tokens: true,
  }).tokens;
}
