import { setConsoleFunction } from 'three';

/** The React renderer still makes this clock; it is the library's affair, and nothing that a person could act on. */
const KNOWN = /Clock: This module has been deprecated/;

/** Lets three.js write to the console as ever, but for the one message that {@link KNOWN} names. */
export function quietThree(): void {
  setConsoleFunction((kind: 'log' | 'warn' | 'error', ...words: unknown[]) => {
    if (typeof words[0] === 'string' && KNOWN.test(words[0])) return;
    console[kind](...words);
  });
}
