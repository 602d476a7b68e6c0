import type { FigureName } from '../terms/figures.ts';
import type { LayoutTable } from './layout-table.ts';
import { type Objective, paretoFront } from './pareto.ts';

/** A figure to be weighed and which way is better. */
export interface ObjectiveChoice {
  readonly figure: FigureName;
  readonly better: 'more' | 'less';
}

/** Mixes of the objectives whose best layouts are used to weed out the rest. */
const MIXES = 24;

/** The objectives as {@link paretoFront} takes them. */
export const tableObjectives = (table: LayoutTable, choices: readonly ObjectiveChoice[]): readonly Objective[] =>
  choices.map(({ figure, better }) => ({ values: table.figure(figure), better }));

/**
 * {@link paretoFront} over the passing layouts of a table. Most of a large table is beaten by a few strong layouts, the best of some
 * mixes of the objectives, so those are struck out first; a layout that is beaten by one of them is on no front.
 */
export function tableFront(
  table: LayoutTable,
  passing: Uint8Array,
  choices: readonly ObjectiveChoice[],
): readonly number[] {
  const objectives = tableObjectives(table, choices);
  const candidates: number[] = [];
  for (let index = 0; index < passing.length; index++) if (passing[index] === 1) candidates.push(index);
  return paretoFront(withoutBeaten(candidates, objectives), objectives);
}

/** A layout is struck out early only when it is behind by so many shares of a figure: far more than any that tie with each other. */
const SURELY_BEHIND = 1e-6;

/** The candidates that none of the strong ones beats for sure. */
function withoutBeaten(candidates: readonly number[], objectives: readonly Objective[]): readonly number[] {
  const strong = strongest(candidates, objectives);
  const score = (place: number, n: number) =>
    objectives[n].better === 'more' ? objectives[n].values[place] : -objectives[n].values[place];
  const beats = (one: number, other: number): boolean => {
    for (let n = 0; n < objectives.length; n++) {
      const better = score(one, n);
      if (!(better - score(other, n) > SURELY_BEHIND * Math.abs(better))) return false;
    }
    return true;
  };
  return candidates.filter((place) => !strong.some((other) => beats(other, place)));
}

/** Of several mixes of the objectives, each scaled to its own spread, the best layout. */
function strongest(candidates: readonly number[], objectives: readonly Objective[]): readonly number[] {
  const scaled = objectives.map((objective) => scaledScore(candidates, objective));
  const best = new Set<number>();
  for (let mix = 0; mix < MIXES; mix++) {
    const weights = scaled.map((_, n) => mixWeight(mix, n, scaled.length));
    let most = Number.NEGATIVE_INFINITY;
    let found = -1;
    for (const place of candidates) {
      let sum = 0;
      for (let n = 0; n < scaled.length; n++) sum += weights[n] * scaled[n](place);
      if (sum > most) {
        most = sum;
        found = place;
      }
    }
    if (found >= 0) best.add(found);
  }
  return [...best];
}

/** Weights that go evenly from one end of the objectives to the other, in steps that differ for each. */
function mixWeight(mix: number, objective: number, objectives: number): number {
  if (objectives === 1) return 1;
  const share = (mix + 0.5) / MIXES;
  if (objectives === 2) return objective === 0 ? share : 1 - share;
  // three: a lattice through the triangle of weights, steps of a golden section so that no edge is preferred
  const second = (mix * 0.6180339887498949) % 1;
  const root = Math.sqrt(share);
  return [1 - root, root * (1 - second), root * second][objective] ?? 0;
}

/** 0 for the worst finite value, 1 for the best; what is not finite counts as worst. */
function scaledScore(candidates: readonly number[], { values, better }: Objective): (place: number) => number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const place of candidates) {
    const value = values[place];
    if (!Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const span = high - low || 1;
  return (place) => {
    const value = values[place];
    if (!Number.isFinite(value)) return Number.NEGATIVE_INFINITY;
    return better === 'more' ? (value - low) / span : (high - value) / span;
  };
}
