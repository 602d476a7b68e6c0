import { interpolateCividis } from 'd3-scale-chromatic';

/** Which way a magnitude is better. */
export type Better = 'more' | 'less';

/**
 * Colour of a magnitude by its place between the lowest (0) and the highest (1) of its scale, for every map in the program: the
 * worse end is yellow, the better end dark blue, whichever way the numbers run. So yellow means little firmness and much
 * magnification alike. The cividis map (Nunez, Anderton and Renslow, PLoS ONE 13(7), 2018) is read in the same order with
 * and without a colour-vision deficiency.
 * @param share anything outside 0 to 1 is held at the ends
 * @returns a CSS `rgb()` colour
 */
export function magnitudeColour(share: number, better: Better): string {
  const held = Math.min(1, Math.max(0, share));
  return interpolateCividis(better === 'less' ? held : 1 - held);
}

/** Words for the low and the high end of a scale. */
export const endWords = (better: Better): readonly [low: string, high: string] =>
  better === 'less' ? ['better', 'worse'] : ['worse', 'better'];
