import { interpolatePuOr } from 'd3-scale-chromatic';

/**
 * The diverging map orange to purple (C. Brewer, ColorBrewer), neutral in the middle, told apart by people with and without a
 * colour-vision deficiency: orange where a signed value is negative, purple where it is positive.
 * @param share 0 to 1, the neutral at a half; anything outside is held at the ends
 * @returns a CSS colour
 */
export const diverging = (share: number): string => interpolatePuOr(1 - Math.min(1, Math.max(0, share)));
