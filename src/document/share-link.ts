import { deflateSync, Inflate } from 'fflate';
import { failed } from '../math/result.ts';
import { crc32 } from './crc32.ts';
import { type DesignDocument, designSchema } from './design.ts';
import { fault, quoted } from './faults.ts';
import { FRAGMENT_KEY, holdsDesign } from './link-fragment.ts';
import { type DesignResult, readDesign } from './read-design.ts';
import { withoutSnapshots } from './snapshots.ts';

/** The way in which a link is written; a link that is written another way gets another number. */
const LINK_FORM = '1';

/** Mail and chat programs may cut or refuse addresses longer than this [characters]; browsers themselves take far more. */
export const COMFORTABLE_LINK = 2000;

/**
 * Largest design text that is unpacked from a link [bytes]: twice the longest name and note with every character escaped, and as much
 * again for a task in which every requirement carries a hull of its own; so that a few kilobytes made to swell without end are
 * refused early.
 */
const MOST_UNPACKED = 512 * 1024;

/** Bytes unpacked at a time; deflate swells at most about a thousandfold, so this bounds what one step can take. */
const UNPACKING_STEP = 1024;

/** Bytes turned into characters at a time, below every engine's limit on arguments. */
const TEXT_STEP = 4096;

/**
 * A design, without its snapshots, as the fragment of an address: `design=1.<packed>.<check>`, where packed is the design's JSON
 * on one line, deflated (RFC 1951), in base64url (RFC 4648), and check is the CRC-32 of the JSON in hexadecimal. Every character
 * may stand in a fragment as it is.
 */
export function linkFragment(document: DesignDocument): string {
  const json = new TextEncoder().encode(JSON.stringify(designSchema.parse(withoutSnapshots(document))));
  return `${FRAGMENT_KEY}${LINK_FORM}.${toBase64Url(deflateSync(json, { level: 9 }))}.${checkText(json)}`;
}

/** Reads what {@link linkFragment} wrote: the same design, bit for bit, or why there is none. Never throws. */
export function readLinkFragment(fragment: string): DesignResult {
  if (!holdsDesign(fragment)) return notWhole('an address without a design');
  const [form, packed, check, ...rest] = fragment.replace(/^#/, '').slice(FRAGMENT_KEY.length).split('.');
  if (form !== LINK_FORM) return otherForm(form);
  if (packed === undefined || check === undefined || rest.length > 0) return notWhole('cut short or altered');
  const json = unpack(packed);
  if (!json.ok) return notWhole(json.fault);
  if (checkText(json.value) !== check) return notWhole('cut short or altered');
  return readDesign(json.value);
}

const notWhole = (what: string): DesignResult =>
  failed([
    fault('notADesign', 'The link', what, 'whole, as it was copied', 'Ask for it again, or for the design as a file.'),
  ]);

function otherForm(form: string): DesignResult {
  if (!/^[1-9]\d*$/.test(form)) return notWhole('cut short or altered');
  const limit = `of form ${LINK_FORM}, the newest that this program reads`;
  return failed([fault('otherVersion', 'The link', `of form ${quoted(form)}`, limit, 'Open it with a newer Legroom.')]);
}

const checkText = (bytes: Uint8Array): string => crc32(bytes).toString(16).padStart(8, '0');

type Unpacked = { readonly ok: true; readonly value: Uint8Array } | { readonly ok: false; readonly fault: string };

/** Base64url and deflate undone, within {@link MOST_UNPACKED}. */
function unpack(packed: string): Unpacked {
  const bytes = fromBase64Url(packed);
  if (!bytes) return { ok: false, fault: 'cut short or altered' };
  const pieces: Uint8Array[] = [];
  let size = 0;
  let complete = false;
  const inflate = new Inflate((piece, final) => {
    size += piece.length;
    complete = final;
    pieces.push(piece);
  });
  try {
    for (let start = 0; start < bytes.length && size <= MOST_UNPACKED; start += UNPACKING_STEP) {
      inflate.push(bytes.subarray(start, start + UNPACKING_STEP), start + UNPACKING_STEP >= bytes.length);
    }
  } catch {
    return { ok: false, fault: 'cut short or altered' };
  }
  if (size > MOST_UNPACKED) return { ok: false, fault: 'far larger than any design' };
  return complete ? { ok: true, value: joined(pieces, size) } : { ok: false, fault: 'cut short or altered' };
}

function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function toBase64Url(bytes: Uint8Array): string {
  let binary = '';
  for (let start = 0; start < bytes.length; start += TEXT_STEP) {
    binary += String.fromCharCode(...bytes.subarray(start, start + TEXT_STEP));
  }
  return btoa(binary).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

/** Null when a character is none of base64url's. */
function fromBase64Url(text: string): Uint8Array | null {
  if (!/^[\w-]+$/.test(text)) return null;
  try {
    return Uint8Array.from(atob(text.replace(/-/g, '+').replace(/_/g, '/')), (character) => character.charCodeAt(0));
  } catch {
    return null;
  }
}
