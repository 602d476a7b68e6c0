import type { PoseAngles } from '../kinematics/pose.ts';

/** What a requirement asks about, in the order in which lines are listed. */
export const LINE_QUANTITIES = [
  'shortestLeg',
  'longestLeg',
  'stroke',
  'baseTilt',
  'platformTilt',
  'toolError',
  'stiffness',
  'pushForce',
  'pullForce',
  'leastPush',
  'jointPull',
  'clearance',
  'firmness',
  'condition',
  'freeSpin',
] as const;

export type LineQuantity = (typeof LINE_QUANTITIES)[number];

/**
 * How sure a line's figure is: no pose of the region is worse, by a proof that the bound is near or keeps the limit; found by a search;
 * seen at some poses only.
 */
export type Certainty = 'proven' | 'searched' | 'sampled';

/** One thing that a requirement asks, with what may be asked of it [mm, rad, N]. */
export interface TaskLine {
  readonly quantity: LineQuantity;
  /** The axis of a universal joint that the line is about; null for others. */
  readonly axis: 'first' | 'second' | null;
  /** The worst over the region; null where it cannot be judged. */
  readonly asked: number | null;
  /** No pose of the region goes past this, by a proof; null where none was made. */
  readonly bound: number | null;
  /** What it may be; null where nothing is said. */
  readonly limit: number | null;
  /** At least 0 where the limit is kept, -Infinity where it cannot be; null for a line that does not count. */
  readonly margin: number | null;
  /** Shown, and not counted: the stroke, which shortest and longest leg hold already. */
  readonly counted: boolean;
  /** 1 to 6. */
  readonly leg: number | null;
  readonly pose: PoseAngles | null;
  readonly certainty: Certainty;
  /** Names of the two bodies that come nearest, or why there is no figure. */
  readonly note: string | null;
}

/** The least margin of the lines that count; null where none does. */
export function leastMargin(lines: readonly TaskLine[]): number | null {
  let least: number | null = null;
  for (const { margin, counted } of lines)
    if (counted && margin !== null && (least === null || margin < least)) least = margin;
  return least;
}
