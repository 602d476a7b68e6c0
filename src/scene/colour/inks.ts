import { Color, SRGBColorSpace } from 'three';

/**
 * The inks of the drawing, each a CSS custom property, in the order in which the shaders number them. Values are handed to the
 * shaders as the screen shows them (sRGB), so that a line has exactly the colour that CSS gives the same token.
 */
export const INK_TOKENS = [
  '--scene-ink',
  '--scene-soft',
  '--scene-faint',
  '--scene-grid',
  '--accent',
  '--warn',
  '--scene-paper',
  '--scene-fill',
  '--scene-shade',
  '--scene-limit-short',
  '--scene-limit-long',
  '--scene-limit-base',
  '--scene-limit-platform',
] as const;

export type InkName = 'line' | 'soft' | 'faint' | 'grid' | 'accent' | 'warn' | 'paper' | 'fill' | 'shade';

/** Number of each ink in the shaders. */
export const INK: Readonly<Record<InkName, number>> = {
  line: 0,
  soft: 1,
  faint: 2,
  grid: 3,
  accent: 4,
  warn: 5,
  paper: 6,
  fill: 7,
  shade: 8,
};

/** Number of the first of the four limit inks; they follow in the order of LIMIT_NAMES. */
export const FIRST_LIMIT_INK = 9;

export const INK_COUNT = INK_TOKENS.length;

/** Red, green, blue of every ink, 0 to 1, flat. */
export type Palette = Float32Array;

/** Reads the inks that hold on an element; a token that is missing comes out black. */
export function readPalette(element: Element, palette: Palette): void {
  const style = getComputedStyle(element);
  const colour = new Color();
  INK_TOKENS.forEach((token, index) => {
    colour.setStyle(style.getPropertyValue(token).trim() || '#000000');
    const { r, g, b } = colour.getRGB({ r: 0, g: 0, b: 0 }, SRGBColorSpace);
    palette.set([r, g, b], 3 * index);
  });
}
