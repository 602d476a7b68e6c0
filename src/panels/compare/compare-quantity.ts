import type { ComparedFigures } from './compared-figures.ts';

/** What one quantity is for one design. */
export type Reading =
  | { readonly kind: 'number'; readonly number: number; readonly text: string }
  /** `rank` orders what can be better or worse, best first; null where nothing is. */
  | { readonly kind: 'words'; readonly words: string; readonly rank: number | null }
  | { readonly kind: 'waiting' }
  | { readonly kind: 'failed'; readonly reason: string };

/** What a row's name may depend on [rad]. */
export interface QuantityContext {
  readonly tiltRange: number;
  readonly yawRange: number;
}

/** One row of the comparison; another one is another entry of QUANTITIES. */
export interface Quantity {
  readonly id: string;
  readonly group: string;
  /** With its unit, which the values leave out. */
  readonly name: string | ((context: QuantityContext) => string);
  readonly read: (column: ComparedFigures) => Reading;
  /** Higher is better; null where neither more nor less is. */
  readonly score: ((value: number) => number) | null;
  /** The size of a change, without its sign. */
  readonly amount: (change: number) => string;
}

/** The more the better, and the less the better. */
export const more = (value: number): number => value;
export const less = (value: number): number => -value;
/** Rank of words that are worse than any number. */
export const WORST = Number.POSITIVE_INFINITY;

/** Words in place of a number. */
export const words = (text: string, rank: number | null = null): Reading => ({ kind: 'words', words: text, rank });

/** A number and how it is written. */
export const number = (value: number, text: string): Reading => ({ kind: 'number', number: value, text });
