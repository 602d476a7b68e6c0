import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../../document/design.ts';
import { STANDARD_SWEEP, type SweepDocument } from '../../document/sweep-file.ts';
import type { Density } from '../../explore/density.ts';
import type { Grid } from '../../explore/grid.ts';
import type { HeatSlice, SliceQuestion } from '../../explore/heat-slice.ts';
import { type ColumnName, isDimension, type Ranges, rangeNames } from '../../explore/layout-table.ts';
import type { SingularLine } from '../../explore/singular-line.ts';
import type { ObjectiveChoice } from '../../explore/table-front.ts';
import type { Front, Spread } from '../../jobs/explore-table-jobs.ts';
import type { Dimensions, RingSpec } from '../../kinematics/dimensions.ts';
import type { DimensionName } from '../../terms/dimensions.ts';
import type { FigureName } from '../../terms/figures.ts';
import { objective } from './explore-columns.ts';
import type { SweepIdentity } from './explore-identity.ts';
import type { LayoutValues } from './explore-layout.ts';

/** What is done with many layouts: sweep ranges, choose holes, or look for the best. */
export type ExploreTask = 'sweep' | 'holes' | 'optimiser';

/**
 * `loading`: kept figures are read. `partial`: ended before all layouts were measured. `failed`: the workers were given up.
 * What is known stays in every case.
 */
export type SweepStatus = 'loading' | 'running' | 'paused' | 'partial' | 'failed' | 'done';

/** The sweep on screen. */
export interface SweepRun {
  readonly identity: SweepIdentity;
  readonly sweep: SweepDocument;
  /** The design it is about: as a document, and without indexed holes as the figures take it. */
  readonly document: DesignDocument;
  readonly design: RingSpec;
  readonly grid: Grid;
  readonly layouts: number;
  /** Layouts whose figures are in. */
  readonly known: number;
  readonly status: SweepStatus;
  /** Time still needed at the present pace [s]; null while there is no pace yet. */
  readonly secondsLeft: number | null;
  /** Time spent measuring on this page [s], and layouts measured in it. */
  readonly seconds: number;
  readonly measured: number;
  /** The figures are kept in the browser, or only until the page is closed. */
  readonly kept: 'browser' | 'memory';
  readonly failure: string | null;
}

/** Which pictures are taken of the layouts. */
export interface ExploreView {
  readonly heatX: DimensionName;
  readonly heatY: DimensionName;
  readonly heatFigure: FigureName;
  /** Share along each other axis at which the heat map cuts, 0 to 1; the middle where none is given. */
  readonly cuts: Readonly<Partial<Record<DimensionName, number>>>;
  /** Two or three; the first two are the axes of the scatter. */
  readonly objectives: readonly ObjectiveChoice[];
  /** Figures shown as ranges beside the dimensions. */
  readonly figures: readonly FigureName[];
  /** What every picture lets through, inside units. */
  readonly ranges: Ranges;
}

/** Pictures as they came from the worker, each for the question it answers. */
export interface Pictures {
  readonly heat: { readonly question: SliceQuestion; readonly slice: HeatSlice } | null;
  readonly singular: SingularLine | null;
  readonly scatter: { readonly x: FigureName; readonly y: FigureName; readonly density: Density } | null;
  readonly spread: Spread | null;
  readonly front: Front | null;
}

/** The layout under the pointer or the keyboard's cursor. */
export interface Pointed {
  readonly index: number;
  readonly values: LayoutValues;
  /** Figures; null until they have come. */
  readonly row: Float64Array | null;
}

/** A design's own figures. */
export interface PresentFigures {
  readonly document: DesignDocument;
  readonly row: Float64Array;
}

export interface ExploreState {
  readonly task: ExploreTask;
  /** The next sweep, as it stands in the fields; it may have faults. */
  readonly setup: SweepDocument;
  /** Time that one layout takes one worker [s]; null until it was measured. */
  readonly pace: number | null;
  readonly run: SweepRun | null;
  /** The design has changed in something that the sweep's figures depend on. */
  readonly stale: boolean;
  readonly view: ExploreView;
  readonly pictures: Pictures;
  /** Layouts that were known when the pictures were last all taken; fewer than are known now when they are older. */
  readonly drawn: number;
  readonly pointed: Pointed | null;
  readonly present: PresentFigures | null;
}

/** Ranges that a picture starts with: layouts that can be built, stand at home and can hold themselves up somewhere. */
export const SOUND_ONLY: Ranges = { buildable: [1, 1], homeReachable: [1, 1], singularEverywhere: [0, 0] };

export const NO_PICTURES: Pictures = { heat: null, singular: null, scatter: null, spread: null, front: null };

export const createExploreStore = () =>
  createStore<ExploreState>()(() => ({
    task: 'sweep',
    setup: STANDARD_SWEEP,
    pace: null,
    run: null,
    stale: false,
    view: {
      heatX: 'baseGap',
      heatY: 'platformGap',
      heatFigure: 'homeFirmness',
      cuts: {},
      objectives: [objective('reach'), objective('homeFirmness')],
      figures: [
        'reach',
        'tiltReach',
        'usableReach',
        'homeFirmness',
        'worstFirmness',
        'forceFactor',
        'jointTilt',
        'buildGap',
      ],
      ranges: SOUND_ONLY,
    },
    pictures: NO_PICTURES,
    drawn: 0,
    pointed: null,
    present: null,
  }));

export type ExploreStore = ReturnType<typeof createExploreStore>;

/** Changes what the pictures show. */
export const changeView = (store: ExploreStore, change: Partial<ExploreView>): void =>
  store.setState(({ view }) => ({ view: { ...view, ...change } }));

/** Lets only a range of a column through, or everything (null). */
export function changeRange(store: ExploreStore, column: ColumnName, range: readonly [number, number] | null): void {
  const { view, run } = store.getState();
  changeView(store, withRange(view, run?.grid ?? [], column, range));
}

/** A range put in or taken away; the heat map's cut goes along when it would lie outside. */
export function withRange(
  view: ExploreView,
  grid: Grid,
  column: ColumnName,
  range: readonly [number, number] | null,
): Pick<ExploreView, 'ranges' | 'cuts'> {
  const { [column]: _, ...others } = view.ranges;
  const cuts = range && isDimension(column) ? { ...view.cuts, ...cutWithin(view, grid, column, range) } : view.cuts;
  return { ranges: range ? { ...others, [column]: range } : others, cuts };
}

/** The heat map's cut through a dimension moved to the nearest value that a range lets through. */
function cutWithin(view: ExploreView, grid: Grid, name: DimensionName, [low, high]: readonly [number, number]) {
  const axis = grid.findIndex((candidate) => candidate.name === name);
  if (axis < 0) return {};
  const { values } = grid[axis];
  const place = cutPlaces(view, grid)[axis];
  let nearest = -1;
  values.forEach((value, n) => {
    if (value < low || value > high) return;
    if (nearest < 0 || Math.abs(n - place) < Math.abs(nearest - place)) nearest = n;
  });
  return nearest < 0 || values.length < 2 ? {} : { [name]: nearest / (values.length - 1) };
}

/** The cuts of the heat map through a design: each at the value of its dimension that is nearest, the ends where it lies outside. */
export function cutsThrough(grid: Grid, dimensions: Dimensions): ExploreView['cuts'] {
  const cuts = grid.flatMap(({ name, values }) => {
    const value = dimensions[name];
    if (value === undefined || values.length < 2) return [];
    let nearest = 0;
    values.forEach((candidate, n) => {
      if (Math.abs(candidate - value) < Math.abs(values[nearest] - value)) nearest = n;
    });
    return [[name, nearest / (values.length - 1)] as const];
  });
  return Object.fromEntries(cuts);
}

/** The view made to fit a grid: its own dimensions on the heat map's axes, and no range of one that it does not vary. */
export function viewFor(view: ExploreView, grid: Grid): ExploreView {
  const names = grid.map(({ name }) => name);
  const kept = names.includes(view.heatX) && names.includes(view.heatY) && view.heatX !== view.heatY;
  const [heatX, heatY] = kept ? [view.heatX, view.heatY] : [names[0], names[1] ?? names[0]];
  const keeps = (name: ColumnName) => !isDimension(name) || names.includes(name);
  const ranges: Ranges = Object.fromEntries(
    rangeNames(view.ranges).flatMap((name) => (keeps(name) ? [[name, view.ranges[name]]] : [])),
  );
  return { ...view, heatX, heatY, ranges };
}

/** Places on all axes at which the heat map cuts; those of its own axes do not matter. */
export const cutPlaces = ({ cuts }: ExploreView, grid: Grid): readonly number[] =>
  grid.map(({ name, values }) => Math.round((cuts[name] ?? 0.5) * (values.length - 1)));
