import { beyondFirstOrder } from '../kinematics/accuracy.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { length } from '../math/vec3.ts';
import type { FigureExtremes } from './figure-extremes.ts';
import type { Certainty, LineQuantity, TaskLine } from './line.ts';
import { marginAtLeast, marginAtMost, marginOfReciprocal } from './margin.ts';
import { FIGURES, type Figure } from './pose-figures.ts';
import type { Requirement, TaskLimits } from './requirement.ts';

/** A line's figure, its limit among the requirement's, and its margin. */
interface FigureRow {
  readonly quantity: LineQuantity;
  readonly figure: Figure;
  readonly limit: keyof TaskLimits;
  readonly better: 'less' | 'more';
  margin(asked: number, limit: number, requirement: Requirement): number;
  /** Listed even where nothing is asked. */
  readonly always: boolean;
}

const atMost = (asked: number, limit: number): number => marginAtMost(asked, limit);

/** In the order in which lines are listed; push and pull share one limit unless the joint's pull has its own line. */
export const FIGURE_ROWS: readonly FigureRow[] = [
  { quantity: 'toolError', figure: 'toolError', limit: 'toolError', better: 'less', margin: atMost, always: true },
  {
    quantity: 'stiffness',
    figure: 'stiffness',
    limit: 'stiffness',
    better: 'more',
    margin: marginOfReciprocal,
    always: true,
  },
  { quantity: 'pushForce', figure: 'push', limit: 'legForce', better: 'less', margin: atMost, always: true },
  { quantity: 'pullForce', figure: 'pull', limit: 'legForce', better: 'less', margin: atMost, always: true },
  {
    quantity: 'leastPush',
    figure: 'leastPush',
    limit: 'leastPush',
    better: 'more',
    margin: (asked, limit, requirement) => marginAtLeast(asked, limit, pushScale(requirement)),
    always: false,
  },
  { quantity: 'jointPull', figure: 'pull', limit: 'jointPull', better: 'less', margin: atMost, always: false },
  {
    quantity: 'firmness',
    figure: 'firmness',
    limit: 'firmness',
    better: 'more',
    margin: marginOfReciprocal,
    always: true,
  },
  { quantity: 'condition', figure: 'condition', limit: 'condition', better: 'less', margin: atMost, always: false },
];

/** Legs that share a load evenly and stand upright carry this part of it. */
const EVEN_SHARE = 1 / 6;

/** Of the least push: the push that a leg may have, else a sixth of the weight; 1 N where neither is known. */
function pushScale({ limits, load }: Requirement): number {
  return limits.legForce || length(load.gravity) * load.payload.mass * EVEN_SHARE || 1;
}

/** By figure, whether a requirement's lines need it. */
export const neededFigures = (limits: TaskLimits, all: boolean): readonly boolean[] =>
  FIGURES.map((figure) =>
    FIGURE_ROWS.some((row) => row.figure === figure && (limits[row.limit] !== undefined || (all && row.always))),
  );

/**
 * What the figures may be, turned so that more is worse; Infinity where nothing is asked or what was seen is past it already, so
 * that no proof could help.
 */
export function allowedBadness(requirement: Requirement, extremes: FigureExtremes): Float64Array {
  const allowed = new Float64Array(FIGURES.length).fill(Number.POSITIVE_INFINITY);
  for (const row of FIGURE_ROWS) {
    const limit = requirement.limits[row.limit];
    const n = FIGURES.indexOf(row.figure);
    const seen = extremes.figures[n];
    // a condition has no bound of its own here
    if (limit === undefined || !seen || row.figure === 'condition') continue;
    const most = row.better === 'less' ? limit : -limit;
    if (seen.badness <= most) allowed[n] = Math.min(allowed[n], most);
  }
  return allowed;
}

/** Lines of what the legs' directions decide. */
export function figureLines(
  mechanism: Mechanism,
  requirement: Requirement,
  extremes: FigureExtremes,
  bounds: { readonly regular: boolean; readonly badness: Float64Array } | null,
  hasStiffness: boolean,
): readonly TaskLine[] {
  return FIGURE_ROWS.flatMap((row): readonly TaskLine[] => {
    const limit = requirement.limits[row.limit] ?? null;
    if (limit === null && !row.always) return [];
    const n = FIGURES.indexOf(row.figure);
    const seen = extremes.figures[n];
    if (!seen) return [];
    const sign = row.better === 'less' ? 1 : -1;
    const base = { quantity: row.quantity, axis: null, limit, counted: true, leg: seen.leg };
    if (extremes.singular) return singularLine(base, row, extremes.singular);
    const unknown = whyUnknown(mechanism, row, seen.badness, hasStiffness);
    if (unknown !== null) {
      const margin = limit === null ? null : Number.NEGATIVE_INFINITY;
      return [{ ...base, asked: null, bound: null, margin, pose: null, certainty: 'searched', note: unknown }];
    }
    const asked = sign * seen.badness;
    const edge = bounds && Number.isFinite(bounds.badness[n]) ? sign * bounds.badness[n] : null;
    const margin = limit === null ? null : row.margin(asked, limit, requirement);
    const certainty = edge !== null && surely(edge, asked, limit, row, requirement) ? 'proven' : 'searched';
    return [{ ...base, asked, bound: edge, margin, pose: seen.pose, certainty, note: null }];
  });
}

/** Share of a figure within which a bound tells as much as the figure itself. */
const NEAR = 0.01;

const surely = (edge: number, asked: number, limit: number | null, row: FigureRow, requirement: Requirement): boolean =>
  Math.abs(edge - asked) <= NEAR * Math.abs(asked) || (limit !== null && row.margin(edge, limit, requirement) >= 0);

const SINGULAR = 'the legs stop being independent there';

/** At a singular pose nothing has a figure; that the firmness is 0 there counts whatever is asked. */
function singularLine(
  base: Pick<TaskLine, 'quantity' | 'axis' | 'limit' | 'counted' | 'leg'>,
  row: FigureRow,
  pose: NonNullable<TaskLine['pose']>,
): readonly TaskLine[] {
  const certainty: Certainty = 'proven';
  const firmness = row.figure === 'firmness';
  const margin = firmness || base.limit !== null ? Number.NEGATIVE_INFINITY : null;
  return [{ ...base, leg: null, asked: firmness ? 0 : null, bound: null, margin, pose, certainty, note: SINGULAR }];
}

function whyUnknown(mechanism: Mechanism, row: FigureRow, badness: number, hasStiffness: boolean): string | null {
  if (row.figure === 'stiffness' && !hasStiffness) return 'the design does not say how stiff its legs are';
  if (row.figure === 'toolError') return beyondFirstOrder(mechanism, badness, 0);
  return null;
}
