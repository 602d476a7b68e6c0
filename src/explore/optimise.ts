import type { Dimensions, RingSpec } from '../kinematics/dimensions.ts';
import { withDimensions } from '../kinematics/dimensions.ts';
import { compileMechanism } from '../kinematics/mechanism.ts';
import type { LongWork } from '../math/long-work.ts';
import { type Random, seededRandom } from '../math/random.ts';
import type { DimensionName } from '../terms/dimensions.ts';
import { FIGURE_NAMES, type FigureName } from '../terms/figures.ts';
import { FIGURE_COUNT, type FigureOptions, LayoutFigures } from './layout-figures.ts';
import { firstTwin } from './twins.ts';

/** A dimension that may vary, and how far [mm, rad or ratio]. */
export interface FreeDimension {
  readonly name: DimensionName;
  readonly from: number;
  readonly to: number;
}

/** A figure to be made as large or as small as can be; `weight` shares the work between several. */
export interface Goal {
  readonly figure: FigureName;
  readonly better: 'more' | 'less';
  readonly weight: number;
  /** What counts as one unit of the figure when several goals are added up. */
  readonly unit: number;
}

/** A figure that must stay within bounds. */
export interface Bound {
  readonly figure: FigureName;
  readonly atLeast?: number;
  readonly atMost?: number;
}

/** One search for the best layout around a design. */
export interface Optimisation {
  readonly design: RingSpec;
  readonly free: readonly FreeDimension[];
  readonly goals: readonly Goal[];
  readonly bounds: readonly Bound[];
  readonly options: FigureOptions;
  readonly seed: number;
  /** Rounds of the whole population. */
  readonly rounds: number;
}

/** A layout tried. */
export interface Candidate {
  readonly dimensions: Dimensions;
  readonly figures: Readonly<Record<FigureName, number>>;
  /** Weighed sum of the goals; larger is better. */
  readonly merit: number;
  /** How far the bounds are broken, relative to each; 0 when all hold. */
  readonly excess: number;
}

/** Best layout and how the search came to it. */
export interface OptimisationResult {
  readonly best: Candidate;
  /** Best merit and excess after each round, the starting population first. */
  readonly trace: readonly TraceStep[];
  readonly layoutsTried: number;
  readonly stoppedEarly: boolean;
}

/** One round of a search: how good its best layout was. */
export interface TraceStep {
  readonly merit: number;
  readonly excess: number;
}

/** Members of the population for each free dimension; ten is the usual choice for differential evolution. */
const MEMBERS_A_DIMENSION = 10;

/** Chance that a coordinate comes from the mutant, and the range of the step factor, drawn anew each time. */
const CROSSOVER = 0.9;
const STEP_LOW = 0.5;
const STEP_HIGH = 1;

/** The search ends early once all members agree on merit and place to this share. */
const AGREED = 1e-9;

/**
 * Differential evolution (R. Storn and K. Price, J. Global Optimization 11, 1997: from memory), rand/1/bin with a dithered
 * step. Layouts within the bounds beat those outside, and of two outside the one less far out wins. The same seed
 * gives the same result on every machine.
 */
export function optimise(search: Optimisation, work: LongWork): OptimisationResult {
  const rounds = optimisationRounds(search);
  let step = rounds.next();
  for (let round = 0; !step.done; round++) {
    work.report(round, search.rounds);
    if (work.shouldStop()) return { ...step.value, stoppedEarly: true };
    step = rounds.next();
  }
  return { ...step.value, stoppedEarly: false };
}

/** {@link optimise} round by round, for whoever has to look up in between. Every value is the result so far. */
export function* optimisationRounds(search: Optimisation): Generator<RoundResult, RoundResult, void> {
  const random = seededRandom(search.seed);
  const judge = judgeOf(search);
  const size = MEMBERS_A_DIMENSION * search.free.length;
  const places: Float64Array<ArrayBuffer>[] = Array.from({ length: size }, () =>
    Float64Array.from(search.free, () => random()),
  );
  const members = places.map(judge);
  const trace = [summary(members)];
  const soFar = (): RoundResult => ({ best: bestOf(members), trace: [...trace], layoutsTried: size * trace.length });
  for (let round = 0; round < search.rounds; round++) {
    yield soFar();
    for (let member = 0; member < size; member++) {
      const trial = mutant(places, member, random);
      const candidate = judge(trial);
      if (noWorse(candidate, members[member])) {
        places[member] = trial;
        members[member] = candidate;
      }
    }
    trace.push(summary(members));
    if (agreed(places, members)) break;
  }
  return soFar();
}

/** A result as far as the search has come. */
export type RoundResult = Omit<OptimisationResult, 'stoppedEarly'>;

/** A trial place in the unit cube: base + step (one - other), crossed with the member's own; reflected at the walls. */
function mutant(
  places: readonly Float64Array<ArrayBuffer>[],
  member: number,
  random: Random,
): Float64Array<ArrayBuffer> {
  const pick = (taken: readonly number[]): number => {
    let place = Math.floor(random() * places.length);
    while (taken.includes(place)) place = (place + 1) % places.length;
    return place;
  };
  const base = pick([member]);
  const one = pick([member, base]);
  const other = pick([member, base, one]);
  const step = STEP_LOW + (STEP_HIGH - STEP_LOW) * random();
  const kept = Math.floor(random() * places[member].length);
  return places[member].map((own, n) => {
    const crossed = random() < CROSSOVER || n === kept;
    return crossed ? reflected(places[base][n] + step * (places[one][n] - places[other][n])) : own;
  });
}

/** Folds a number back into [0, 1]; a step is never longer than the cube. */
const reflected = (value: number): number =>
  value < 0 ? Math.min(1, -value) : value > 1 ? Math.max(0, 2 - value) : value;

function judgeOf({ design, free, goals, bounds, options }: Optimisation): (place: Float64Array) => Candidate {
  const measure = new LayoutFigures(options);
  const row = new Float64Array(FIGURE_COUNT);
  return (place) => {
    const dimensions = Object.fromEntries(free.map(({ name, from, to }, n) => [name, from + (to - from) * place[n]]));
    measure.measure(compileMechanism(firstTwin(withDimensions(design, dimensions))), row);
    const figures = namedFigures(row);
    return { dimensions, figures, merit: meritOf(figures, goals), excess: excessOf(figures, bounds) };
  };
}

/** A row of figures under their names. */
export function namedFigures(row: ArrayLike<number>, offset = 0): Readonly<Record<FigureName, number>> {
  const figure = (name: FigureName) => row[offset + FIGURE_NAMES.indexOf(name)];
  return {
    reach: figure('reach'),
    tiltReach: figure('tiltReach'),
    usableReach: figure('usableReach'),
    homeFirmness: figure('homeFirmness'),
    homeCondition: figure('homeCondition'),
    worstFirmness: figure('worstFirmness'),
    meanFirmness: figure('meanFirmness'),
    forceFactor: figure('forceFactor'),
    jointTilt: figure('jointTilt'),
    spareStroke: figure('spareStroke'),
    buildGap: figure('buildGap'),
    buildable: figure('buildable'),
    homeReachable: figure('homeReachable'),
    singularEverywhere: figure('singularEverywhere'),
  };
}

/** Weighed sum of the goals, each in its unit; larger is better. */
export const meritOf = (figures: Readonly<Record<FigureName, number>>, goals: readonly Goal[]): number =>
  goals.reduce(
    (sum, { figure, better, weight, unit }) => sum + ((better === 'more' ? 1 : -1) * weight * figures[figure]) / unit,
    0,
  );

/** How far bounds are broken, relative to each; 0 when all hold. */
export function excessOf(figures: Readonly<Record<FigureName, number>>, bounds: readonly Bound[]): number {
  return bounds.reduce((sum, { figure, atLeast, atMost }) => {
    const value = figures[figure];
    const short = atLeast === undefined ? 0 : Math.max(0, atLeast - value) / (Math.abs(atLeast) || 1);
    const over = atMost === undefined ? 0 : Math.max(0, value - atMost) / (Math.abs(atMost) || 1);
    return sum + short + over;
  }, 0);
}

/** A candidate without its dimensions: all that decides between two. */
export type Judged = Pick<Candidate, 'merit' | 'excess'>;

/** A merit that is not a number (an infinite condition among several goals) loses against every other. */
const worth = (merit: number): number => (Number.isNaN(merit) ? Number.NEGATIVE_INFINITY : merit);

/** The first is at least as good: within the bounds, or less far outside, and then by merit. */
export const noWorse = (a: Judged, b: Judged): boolean =>
  a.excess === b.excess ? worth(a.merit) >= worth(b.merit) : a.excess < b.excess;

const bestOf = (members: readonly Candidate[]): Candidate =>
  members.reduce((best, member) => (noWorse(best, member) ? best : member));

const summary = (members: readonly Candidate[]): TraceStep => {
  const { merit, excess } = bestOf(members);
  return { merit, excess };
};

function agreed(places: readonly Float64Array[], members: readonly Candidate[]): boolean {
  const { merit, excess } = bestOf(members);
  const size = Math.abs(merit) || 1;
  return (
    members.every((member) => member.excess === excess && Math.abs(member.merit - merit) <= AGREED * size) &&
    places.every((place) => place.every((value, n) => Math.abs(value - places[0][n]) <= Math.sqrt(AGREED)))
  );
}
