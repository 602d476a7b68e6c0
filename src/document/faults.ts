/** Why a design cannot be used; the closed list that a program may branch on. */
export type FaultReason =
  | 'tooLarge'
  | 'notText'
  | 'empty'
  | 'notJson'
  | 'notADesign'
  | 'otherVersion'
  | 'missing'
  | 'wrongType'
  | 'outOfRange'
  | 'unknownKey'
  | 'contradiction'
  | 'more';

/** One thing wrong with a design, for a person to put right. */
export interface DesignFault {
  readonly reason: FaultReason;
  /** Where, as `base.ring.gap_deg` or `platform.points_mm[2]`; empty for the file as a whole. */
  readonly path: string;
  /** What stands there, in short. */
  readonly value: string;
  /** What is allowed there. */
  readonly limit: string;
  /** What to do about it, one sentence. */
  readonly remedy: string;
  /** All of it on one line. */
  readonly message: string;
}

/** Builds a fault: "<path> is <value>; it must be <limit>. <remedy>" */
export function fault(reason: FaultReason, path: string, value: string, limit: string, remedy: string): DesignFault {
  const subject = path === '' ? 'The file' : path;
  return { reason, path, value, limit, remedy, message: `${subject} is ${value}; it must be ${limit}. ${remedy}` };
}

/** More faults than this in one file are not listed: nobody reads further. */
export const LISTED_FAULTS = 40;

/** Takes out repetitions, cuts a long list and says so. */
export function listedFaults(faults: readonly DesignFault[]): DesignFault[] {
  const different = [...new Map(faults.map((found) => [found.message, found])).values()];
  if (different.length <= LISTED_FAULTS) return different;
  const value = `at fault in more places than these ${LISTED_FAULTS}`;
  const last = fault('more', '', value, 'right everywhere', 'Put these right first.');
  return [...different.slice(0, LISTED_FAULTS), last];
}

/** Characters shown of a text or key that came with a file. */
const SHOWN_CHARACTERS = 40;

/** A piece of foreign text in quotes, short, on one line, with everything unprintable escaped. */
export function quoted(text: string): string {
  const shown = text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}...` : text;
  return JSON.stringify(shown).replace(
    /[\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Any value in a few words: numbers and texts as they stand, the rest by its kind. */
export function shownValue(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'number') return shownNumber(value);
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  return String(value);
}

function shownNumber(value: number): string {
  if (Number.isNaN(value)) return 'not a number';
  return Number.isFinite(value) ? String(value) : 'beyond the largest number a computer holds';
}

/** A path for people: names with dots, list places in brackets, strange names in quotes. */
export function shownPath(path: readonly PropertyKey[]): string {
  let text = '';
  for (const step of path) {
    if (typeof step === 'number') text += `[${step}]`;
    else if (/^\w{1,60}$/.test(String(step))) text += text === '' ? String(step) : `.${String(step)}`;
    else text += `[${quoted(String(step))}]`;
  }
  return text;
}
