import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../../document/design.ts';
import type { Weight } from '../../explore/hole-ranking.ts';
import type { HoleSearchState } from '../../explore/hole-search.ts';
import type { RankedHoles } from '../../jobs/hole-table-jobs.ts';
import { betterOf } from './explore-columns.ts';

/** How far a piece of work is. */
export type WorkStatus = 'idle' | 'running' | 'done' | 'cancelled' | 'failed';

/** All three-fold choices of holes of one design. */
export interface HoleRun {
  readonly document: DesignDocument;
  readonly status: WorkStatus;
  readonly choices: number;
  readonly known: number;
  readonly ranked: RankedHoles | null;
  readonly failure: string | null;
}

/** A step from the present holes to the next ones, and what it does. */
export interface HoleMove {
  readonly name: string;
  /** The design after it; null where it would leave the plate. */
  readonly document: DesignDocument | null;
  readonly row: Float64Array | null;
}

/** Moves from one design. */
export interface HoleMoves {
  readonly document: DesignDocument;
  readonly present: Float64Array;
  readonly moves: readonly HoleMove[];
}

/** A search for single joints' holes. */
export interface HoleSearchRun {
  readonly document: DesignDocument;
  readonly status: WorkStatus;
  readonly state: HoleSearchState | null;
  readonly failure: string | null;
}

export interface HolesState {
  readonly weights: readonly Weight[];
  readonly run: HoleRun | null;
  readonly moves: HoleMoves | null;
  readonly seed: number;
  /** Local optima that the search for single holes visits. */
  readonly rounds: number;
  readonly search: HoleSearchRun | null;
}

/** Ranked choices that are listed. */
export const LISTED_CHOICES = 1000;

export const createHolesStore = () =>
  createStore<HolesState>()(() => ({
    weights: (['usableReach', 'tiltReach', 'homeFirmness', 'worstFirmness', 'forceFactor'] as const).map((figure) => ({
      figure,
      better: betterOf(figure),
      weight: figure === 'usableReach' || figure === 'homeFirmness' ? 5 : 0,
    })),
    run: null,
    moves: null,
    seed: 1,
    rounds: 12,
    search: null,
  }));

export type HolesStore = ReturnType<typeof createHolesStore>;
