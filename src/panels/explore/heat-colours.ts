import { type Better, magnitudeColour } from '../../state/magnitude-colours.ts';

/** Number of colours in a table. */
const COLOURS = 256;

/** Red, green, blue, 0 to 255, of {@link COLOURS} steps from the lowest to the highest value. */
const TABLES: Readonly<Record<Better, Uint8Array>> = { more: table('more'), less: table('less') };

function table(better: Better): Uint8Array {
  const filled = new Uint8Array(3 * COLOURS);
  for (let n = 0; n < COLOURS; n++) {
    const channels = magnitudeColour(n / (COLOURS - 1), better).match(/\d+/g) ?? [];
    filled.set(channels.map(Number).slice(0, 3), 3 * n);
  }
  return filled;
}

/** Writes the colour of a share 0 to 1 (held at the ends) with an opacity 0 to 255. */
export function putHeat(pixels: Uint8ClampedArray, at: number, share: number, better: Better, opacity: number): void {
  const n = 3 * Math.round(Math.min(1, Math.max(0, share)) * (COLOURS - 1));
  const colours = TABLES[better];
  pixels[at] = colours[n];
  pixels[at + 1] = colours[n + 1];
  pixels[at + 2] = colours[n + 2];
  pixels[at + 3] = opacity;
}

/** Colours at even steps of the map, lowest value first, for a gradient. */
export const heatStops = (count: number, better: Better): readonly string[] =>
  Array.from({ length: count }, (_, n) => magnitudeColour(n / (count - 1), better));
