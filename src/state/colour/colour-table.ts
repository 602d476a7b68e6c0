/** Number of colours in the table that the graphics card reads. */
export const TABLE_SIZE = 256;

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
