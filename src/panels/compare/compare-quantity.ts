import type { ComparedFigures } from './compared-figures.ts';

/** What one quantity is for one design. */
export type Reading =
  /** `own` stands in place of the number; `note` behind it. */
  | { readonly kind: 'number'; readonly number: number; readonly own?: string; readonly note?: string }
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
  /** Digits behind the point of every number in the row; `figures`: as many as the smallest needs for three figures. */
  readonly digits: number | 'figures';
}

/** The more the better, and the less the better. */
export const more = (value: number): number => value;
export const less = (value: number): number => -value;
/** Rank of words that are worse than any number. */
export const WORST = Number.POSITIVE_INFINITY;

/** Words in place of a number. */
export const words = (text: string, rank: number | null = null): Reading => ({ kind: 'words', words: text, rank });

/** A number in the unit of its row; one without bound says so. */
export const number = (value: number, note = ''): Reading =>
  Number.isFinite(value)
    ? { kind: 'number', number: value, note }
    : { kind: 'number', number: value, own: 'without bound' };
