import type { UsableReach } from '../reach/columns/usable.ts';
import type { Floor } from '../terms/quantities.ts';
import type { ComparedLayout, CompareQuestion } from './compare-jobs.ts';
import type { FieldQuestion } from './field-jobs.ts';
import type { JobOutcome } from './outcome.ts';
import type { TiltedSummary } from './reach-jobs.ts';
import type { ReachQuestion, TiltRange } from './reach-question.ts';

/** The columns of a comparison, by the letters that they carry on screen. */
export const COMPARED_COLUMNS = ['a', 'b', 'c', 'd'] as const;

export type ComparedColumn = (typeof COMPARED_COLUMNS)[number];

/** Whoever computes what is compared: of each column only the newest question is answered. No promise rejects. */
export interface CompareService {
  compared(column: ComparedColumn, question: CompareQuestion): Promise<JobOutcome<ComparedLayout>>;
  /** Usable under floors of its own. */
  comparedUsable(
    column: ComparedColumn,
    question: FieldQuestion,
    floors: readonly Floor[],
  ): Promise<JobOutcome<UsableReach>>;
  comparedTilts(column: ComparedColumn, question: ReachQuestion, range: TiltRange): Promise<JobOutcome<TiltedSummary>>;
}
