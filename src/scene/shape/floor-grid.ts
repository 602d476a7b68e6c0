/** Lines of a square grid about the origin. */
export interface GridPlan {
  /** Distance of neighbouring lines [mm]; every fifth is a heavier one. */
  readonly step: number;
  /** Lines on either side of the middle one; a multiple of five. */
  readonly count: number;
  /** Half the width of the whole grid [mm]. */
  readonly reach: number;
}

/** Lines to a heavier line. */
export const LINES_PER_HEAVY = 5;

/** A grid of about this many fine lines on either side; fewer look empty, more grey. */
const MOST_LINES = 30;

/** The grid of 1, 10, 100 ... mm lines that covers `radius` [mm] with at most {@link MOST_LINES} lines on either side. */
export function gridPlan(radius: number): GridPlan {
  const step = 10 ** Math.max(-3, Math.ceil(Math.log10(radius / MOST_LINES)));
  const count = LINES_PER_HEAVY * Math.max(1, Math.ceil(radius / step / LINES_PER_HEAVY));
  return { step, count, reach: count * step };
}
