import type { FigureName } from '../../terms/figures.ts';

/** Figures that one hole further is judged by. */
export const MOVE_FIGURES: readonly FigureName[] = [
  'reach',
  'tiltReach',
  'usableReach',
  'homeFirmness',
  'worstFirmness',
  'forceFactor',
];

/** Figures of a list of hole choices. */
export const HOLE_FIGURES: readonly FigureName[] = [...MOVE_FIGURES, 'jointTilt', 'buildGap'];
