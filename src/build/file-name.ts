/** Characters of a stem at most: every common file system takes 255 bytes, and endings and four-byte letters need room. */
const LONGEST_STEM = 48;

/** Names that one widespread system keeps for its devices, whatever their ending. */
const KEPT_NAMES = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * The stem of file names for a design of this name: what a file system may refuse becomes `-` (separators, quotes, wild cards, control and
 * invisible characters, white space, dots at either end), and long names are cut between characters. Letters of any script stay.
 */
export function fileStem(name: string): string {
  const safe = name
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{N}._+-]+/gu, '-')
    .replace(/-{2,}/g, '-');
  const stem = Array.from(safe)
    .slice(0, LONGEST_STEM)
    .join('')
    .replace(/^[.-]+|[.-]+$/g, '');
  return stem === '' || KEPT_NAMES.test(stem) ? `design${stem === '' ? '' : `-${stem}`}` : stem;
}
