import { interpolateCividis } from 'd3-scale-chromatic';

/** Number of colours in the table that the graphics card reads. */
export const TABLE_SIZE = 256;

/**
 * The cividis colour map (Nunez, Anderton and Renslow, PLoS ONE 13(7), 2018), made so that people with and without a
 * colour-vision deficiency read the same order: dark blue at 0, yellow at 1.
 * @param share 0 to 1; anything outside is held at the ends
 * @returns a CSS colour
 */
export const cividis = (share: number): string => interpolateCividis(Math.min(1, Math.max(0, share)));

/** The map as {@link TABLE_SIZE} RGBA bytes. */
export const cividisTable = (): Uint8Array<ArrayBuffer> => colourTable(cividis);

/** Any map from 0 to 1 as {@link TABLE_SIZE} RGBA bytes. */
export function colourTable(map: (share: number) => string): Uint8Array<ArrayBuffer> {
  const table = new Uint8Array(4 * TABLE_SIZE);
  for (let i = 0; i < TABLE_SIZE; i++) {
    const [red, green, blue] = channels(map(i / (TABLE_SIZE - 1)));
    table.set([red, green, blue, 255], 4 * i);
  }
  return table;
}

/** Red, green and blue, 0 to 255, of a CSS `rgb()` colour. */
function channels(colour: string): readonly [number, number, number] {
  const [red, green, blue] = (colour.match(/\d+/g) ?? []).map(Number);
  return [red, green, blue];
}
