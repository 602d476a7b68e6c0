import { FIRM_MAGNIFICATION, NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';

/** Magnification at the far end of the colour scale; anything looser has the same colour. */
export const SCALE_END = 20;

/** Magnifications that the legend names. */
export const SCALE_TICKS: readonly number[] = [1, 2, FIRM_MAGNIFICATION, NEARLY_SINGULAR_MAGNIFICATION, SCALE_END];

/**
 * Place of a magnification on the colour scale, 0 to 1, logarithmic from 1 to {@link SCALE_END}: doubling is the same step
 * everywhere. The same for every design, so that colours can be compared. Infinity (singular) lies at the end.
 */
export const firmnessShare = (magnification: number): number => {
  const share = Math.log(magnification) / Math.log(SCALE_END);
  return Math.min(1, Math.max(0, share));
};

/** Share of the scale between two contour lines: ten over the whole. */
export const FIRMNESS_CONTOUR = 0.1;
