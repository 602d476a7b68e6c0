import type { LongWork } from '../math/long-work.ts';
import { type HelpPlan, type HelpReport, helpsOfPlan } from '../reach/what-helps.ts';
import type { Floor } from '../terms/quantities.ts';
import { foundOrThrow } from './outcome.ts';

/** Designs to difference. Plain data: it crosses to the worker as it is. */
export interface HelpsQuestion {
  readonly plan: HelpPlan;
  /** Null: the usable volume is not asked for; it takes most of the time. */
  readonly floors: readonly Floor[] | null;
}

/** What each dimension does to reach, usable volume and worst error. Throws with the reason when an input cannot be used. */
export function helpsJob({ plan, floors }: HelpsQuestion, work: LongWork): HelpReport {
  return foundOrThrow(helpsOfPlan(plan, floors, work));
}
