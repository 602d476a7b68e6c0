import { CELL, type HeatSlice } from '../../explore/heat-slice.ts';
import type { Better } from '../../state/colour/magnitude-colours.ts';
import { putHeat } from './heat-colours.ts';

/** Opacities of a cell, 0 to 255: measured, known only from a coarser one, and filtered out. */
const MEASURED = 255;
const COARSE = 235;
const FILTERED = 40;

/** Paints the cells of a slice on a canvas, one pixel each; the style sheet stretches them. */
export function drawHeat(
  canvas: HTMLCanvasElement,
  { xPlaces, yPlaces, values, state, passes, domain }: HeatSlice,
  better: Better,
): void {
  const columns = xPlaces.length;
  const rows = yPlaces.length;
  canvas.width = columns;
  canvas.height = rows;
  const context = canvas.getContext('2d');
  if (!context || !domain) return;
  const image = context.createImageData(columns, rows);
  const scale = 1 / (domain.high - domain.low || 1);
  for (let row = 0, cell = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, cell++) {
      if (state[cell] === CELL.empty) continue;
      const opacity = passes[cell] === 0 ? FILTERED : state[cell] === CELL.measured ? MEASURED : COARSE;
      const at = 4 * ((rows - 1 - row) * columns + column);
      putHeat(image.data, at, (values[cell] - domain.low) * scale, better, opacity);
    }
  }
  context.putImageData(image, 0, 0);
}
