import { parseArgs } from 'node:util';
import { type DesignFault, fault, quoted } from '../document/faults.ts';
import { nearestKey } from '../document/known-keys.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { givenTwice, type Option } from './option.ts';
import { FORCE } from './options.ts';
import type { Given, Verb, VerbRequest } from './verb.ts';

type Token = ReturnType<typeof tokensOf>[number];
type OptionToken = Extract<Token, { kind: 'option' }>;

/** What the arguments say before it is known which verb they are for. */
export interface Words {
  /** The verb's name as it was typed; empty when there is none. */
  readonly verb: string;
  readonly help: boolean;
}

/** The verb that is asked for: the first word that is no option. */
export function readWords(argv: readonly string[]): Words {
  const tokens = tokensOf(argv, []);
  const first = tokens.find(({ kind }) => kind === 'positional');
  return { verb: first?.kind === 'positional' ? first.value : '', help: tokens.some(asksForHelp) };
}

/** What was asked of a verb, or that it asks for help. */
export type Arguments = { readonly kind: 'help' } | { readonly kind: 'request'; readonly request: VerbRequest };

/** Reads the arguments of a verb; every fault is found, not only the first. */
export function readArguments(argv: readonly string[], verb: Verb): Result<Arguments, readonly DesignFault[]> {
  const options = verb.asksForce ? [...verb.options, FORCE] : verb.options;
  const tokens = tokensOf(argv, options);
  if (tokens.some(asksForHelp)) return ok({ kind: 'help' });
  const [name = '', ...files] = tokens.flatMap((token) => (token.kind === 'positional' ? [token.value] : []));
  const typed = new Map<string, readonly string[]>();
  const faults = [...fileFaults(name, verb, files)];
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const option = options.find((known) => known.name === token.name);
    const found = option ? tokenFault(option, token, options) : unknownOption(options, token);
    const before = typed.get(token.name);
    if (found) faults.push(found);
    else if (before && !option?.repeated) faults.push(givenTwice(token.rawName));
    else typed.set(token.name, [...(before ?? []), token.value ?? '']);
  }
  const given = (option: Option<unknown>): readonly string[] => typed.get(option.name) ?? [];
  for (const option of options) {
    const read = option.read(given(option));
    if (!read.ok) faults.push(...read.fault);
  }
  const has: Given['has'] = (option) => given(option).length > 0;
  faults.push(...(verb.check?.({ files, has }) ?? []));
  if (faults.length > 0) return failed(faults);
  const get: VerbRequest['get'] = (option) => worth(option, given(option));
  return ok({ kind: 'request', request: { files, force: has(FORCE), get } });
}

/** What an option is worth that has been read before without fault: read again, because then its type is known. */
function worth<Value>(option: Option<Value>, given: readonly string[]): Value {
  const read = option.read(given);
  if (!read.ok) throw new Error(`--${option.name} is not among the verb's own options`);
  return read.value;
}

const asksForHelp = (token: Token): boolean => token.kind === 'option' && token.name === HELP;

const HELP = 'help';

function fileFaults(verb: string, { files: { name, limit, least, most } }: Verb, files: readonly string[]) {
  if (files.length < least) return [fault('missing', name, 'missing', limit, `Write ${verb} ${name}.`)];
  return files.slice(most).map((other) => tooMany(other, most === 1 ? 'one design file' : `${most} at most`));
}

/** Refuses a word that is no option and has no place. */
export const tooMany = (word: string, allowed: string): DesignFault =>
  fault('unknownKey', quoted(word), 'one argument too many', 'left out', `Give ${allowed}.`);

/** What is wrong with an option before its value is looked at. */
function tokenFault(option: Option<unknown>, token: OptionToken, all: readonly Option<unknown>[]): DesignFault | null {
  const { rawName, value } = token;
  if (option.follows === null) {
    if (value === undefined) return null;
    return fault('wrongType', rawName, quoted(value), 'without a value', `Write ${rawName}.`);
  }
  // another option in the value's place: the value was forgotten
  const forgotten = !token.inlineValue && all.some(({ name }) => value === `--${name}`);
  if (value !== undefined && !forgotten) return null;
  const remedy = `Write --${option.name} ${option.follows}.`;
  return fault('missing', `--${option.name}`, 'without its value', option.needs, remedy);
}

function unknownOption(options: readonly Option<unknown>[], token: OptionToken): DesignFault {
  const known = [...options.map(({ name }) => name), HELP];
  const near = nearestKey(token.name, known);
  const limit = `one of ${known.map((name) => `--${name}`).join(', ')}`;
  const shown = /^--?[\w-]{1,40}$/.test(token.rawName) ? token.rawName : quoted(token.rawName);
  return fault('unknownKey', shown, 'an unknown option', limit, near ? `Write --${near}.` : 'Leave it out.');
}

/** Refuses a word that is no verb. */
export function verbFault(word: string, names: readonly string[]): DesignFault {
  const near = nearestKey(word, names);
  const remedy = near ? `Write ${near}, or --help for a list.` : 'Write --help for a list.';
  const [reason, value] = word === '' ? (['missing', 'missing'] as const) : (['unknownKey', quoted(word)] as const);
  return fault(reason, 'The verb', value, `one of ${names.join(', ')}`, remedy);
}

/** Tokens in the order given. Not strict: a number list may begin with a minus sign, and faults are worded here. */
function tokensOf(argv: readonly string[], options: readonly Option<unknown>[]) {
  const types = Object.fromEntries(
    options.map(({ name, follows }) => [
      name,
      { type: follows === null ? ('boolean' as const) : ('string' as const), multiple: true as const },
    ]),
  );
  return parseArgs({
    args: [...argv],
    options: { ...types, [HELP]: { type: 'boolean' as const, short: 'h' } },
    strict: false,
    allowPositionals: true,
    tokens: true,
  }).tokens;
}
