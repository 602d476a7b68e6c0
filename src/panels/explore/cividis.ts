import { interpolateCividis } from 'd3-scale-chromatic';

/** Number of colours in the table. */
const COLOURS = 256;

/** Red, green, blue, 0 to 255, of {@link COLOURS} steps of the cividis map, dark blue first. */
const TABLE: Uint8Array = (() => {
  const table = new Uint8Array(3 * COLOURS);
  for (let n = 0; n < COLOURS; n++) {
    const channels = interpolateCividis(n / (COLOURS - 1)).match(/\d+/g) ?? [];
    table.set(channels.map(Number).slice(0, 3), 3 * n);
  }
  return table;
})();

/** Writes the colour of a share 0 to 1 (held at the ends) with an opacity 0 to 255. */
export function putCividis(pixels: Uint8ClampedArray, at: number, share: number, opacity: number): void {
  const n = 3 * Math.round(Math.min(1, Math.max(0, share)) * (COLOURS - 1));
  pixels[at] = TABLE[n];
  pixels[at + 1] = TABLE[n + 1];
  pixels[at + 2] = TABLE[n + 2];
  pixels[at + 3] = opacity;
}

/** Colours at even steps of the map, for a gradient. */
export const cividisStops = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, n) => interpolateCividis(n / (count - 1)));
