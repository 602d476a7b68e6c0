import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../document/design.ts';
import type { PoseAngles } from '../kinematics/pose.ts';

/** What a reach result was computed for; a result for anything else is shown as stale. */
export interface ReachSubject {
  readonly document: DesignDocument;
  /** The pose whose orientation was taken; null for the home orientation. */
  readonly pose: PoseAngles | null;
}

/** A finished job's value with what it was computed for. */
export interface Finished<Value> {
  readonly subject: ReachSubject;
  readonly value: Value;
}

/** One kind of result: the last value, whether a newer one is under way, and why the last attempt failed. */
export interface Outcome<Value> {
  readonly finished: Finished<Value> | null;
  readonly working: boolean;
  readonly failure: string | null;
}

/** Nothing computed yet. */
export const nothingYet = <Value>(): Outcome<Value> => ({
  finished: null,
  working: false,
  failure: null,
});

/** Same design and same orientation: the value still holds. */
export const isCurrent = (subject: ReachSubject, document: DesignDocument, pose: PoseAngles | null): boolean =>
  subject.document === document && subject.pose === pose;

export const createResultsStore = <Summary, Picture>() =>
  createStore<{
    readonly summary: Outcome<Summary>;
    readonly picture: Outcome<Picture>;
    readonly tilted: Outcome<Summary>;
  }>()(() => ({
    summary: nothingYet(),
    picture: nothingYet(),
    tilted: nothingYet(),
  }));
