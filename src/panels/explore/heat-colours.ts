import { colourTable, TABLE_SIZE } from '../../state/colour/colour-table.ts';
import { type Better, magnitudeColour } from '../../state/colour/magnitude-colours.ts';

/** Colours from the lowest to the highest value. */
const TABLES: Readonly<Record<Better, Uint8Array>> = {
  more: colourTable((share) => magnitudeColour(share, 'more')),
  less: colourTable((share) => magnitudeColour(share, 'less')),
};

/** Writes the colour of a share 0 to 1 (held at the ends) with an opacity 0 to 255. */
export function putHeat(pixels: Uint8ClampedArray, at: number, share: number, better: Better, opacity: number): void {
  const n = 4 * Math.round(Math.min(1, Math.max(0, share)) * (TABLE_SIZE - 1));
  const colours = TABLES[better];
  pixels[at] = colours[n];
  pixels[at + 1] = colours[n + 1];
  pixels[at + 2] = colours[n + 2];
  pixels[at + 3] = opacity;
}

/** Colours at even steps of the map, lowest value first, for a gradient. */
export const heatStops = (count: number, better: Better): readonly string[] =>
  Array.from({ length: count }, (_, n) => magnitudeColour(n / (count - 1), better));
