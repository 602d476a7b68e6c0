import type { Density } from '../../explore/density.ts';

/** Opacities of a cell with one layout and with very many, 0 to 255; filtered ones are a breath only. */
const FEW = 70;
const MANY = 235;
const FILTERED = 22;

/** Paints how many layouts fall into each cell in one ink, darker for more (by the logarithm), on a canvas of one pixel a cell. */
export function drawDensity(
  canvas: HTMLCanvasElement,
  { columns, rows, known, passing }: Density,
  ink: readonly [number, number, number],
): void {
  canvas.width = columns;
  canvas.height = rows;
  const context = canvas.getContext('2d');
  if (!context) return;
  const image = context.createImageData(columns, rows);
  const most = Math.log1p(passing.reduce((largest, count) => Math.max(largest, count), 1));
  for (let row = 0, cell = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, cell++) {
      if (known[cell] === 0) continue;
      const at = 4 * ((rows - 1 - row) * columns + column);
      const share = Math.log1p(passing[cell]) / most;
      image.data[at] = ink[0];
      image.data[at + 1] = ink[1];
      image.data[at + 2] = ink[2];
      image.data[at + 3] = passing[cell] > 0 ? FEW + (MANY - FEW) * share : FILTERED;
    }
  }
  context.putImageData(image, 0, 0);
}
