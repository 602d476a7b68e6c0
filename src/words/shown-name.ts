/**
 * Characters that turn the reading direction or cannot be seen: marks, embeddings, overrides and isolates of the
 * Unicode Bidirectional Algorithm (UAX 9), signs without width that no script needs, line and paragraph separators, and
 * control characters. A name with one of them reads as another name.
 */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff]/gu;

/** A name as it is shown: what would turn or hide its letters stands there by its number, as `[U+202E]`. */
export const shownName = (name: string): string =>
  name.replace(UNSEEN, (sign) => `[U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}]`);

/** The name that was shown so: undoes {@link shownName}, so that a name can be edited where it is shown. */
export const namedAsShown = (shown: string): string =>
  shown.replace(/\[U\+([0-9A-F]{4})\]/g, (written, digits: string) => {
    const sign = String.fromCharCode(Number.parseInt(digits, 16));
    return shownName(sign) === written ? sign : written;
  });
