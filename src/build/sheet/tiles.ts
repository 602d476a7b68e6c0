import type { PlateName } from '../../kinematics/layout.ts';
import type { Point } from '../joint-mounts.ts';
import { type BuildParts, SIDE_WORDS } from '../parts.ts';
import { type Box, boxOf, moved, outline, type Shape, segment, text } from './drawing.ts';
import { cutToFit, wrapped } from './letters.ts';
import type { PlateDrawing } from './plate-drawing.ts';
import type { Sheet } from './sheet.ts';

/** A sheet of which one part shows through a window: shapes are cut off at its edges. */
export interface Tile extends Sheet {
  readonly window: { readonly box: Box; readonly shapes: readonly Shape[] };
}

/** A4, upright [mm]. */
const PAPER = { width: 210, height: 297 };

/** The part of the paper that shows the drawing; the strips beside it hold the rules and what the page is. */
const WINDOW: Box = { low: [20, 46], high: [200, 287] };

/** Width that two neighbouring pages both show [mm]. */
const OVERLAP = 10;

/** More pages than this nobody glues together. */
export const MOST_TILES = 48;

/** A drawing cut up for A4 pages that are glued with an overlap; null when there would be more than {@link MOST_TILES}. */
export function tilesOf(parts: BuildParts, drawing: PlateDrawing, warnings: readonly string[]): readonly Tile[] | null {
  const { low, high } = boxOf(drawing.shapes);
  const step = [WINDOW.high[0] - WINDOW.low[0] - OVERLAP, WINDOW.high[1] - WINDOW.low[1] - OVERLAP];
  const count = (axis: 0 | 1) => Math.max(1, Math.ceil((high[axis] - low[axis] - OVERLAP + 4) / step[axis]));
  const [columns, rows] = [count(0), count(1)];
  if (columns * rows > MOST_TILES) return null;
  const spare = (axis: 0 | 1, pages: number) => (pages * step[axis] + OVERLAP - (high[axis] - low[axis])) / 2;
  const origin: Point = [low[0] - spare(0, columns), low[1] - spare(1, rows)];
  const tiles: Tile[] = [];
  for (let row = rows - 1; row >= 0; row--)
    for (let column = 0; column < columns; column++) {
      const place: Point = [WINDOW.low[0] - origin[0] - column * step[0], WINDOW.low[1] - origin[1] - row * step[1]];
      const name = `${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[rows - 1 - row] ?? `row ${rows - row}, `}${column + 1}`;
      tiles.push({
        title: `${SIDE_WORDS[drawing.side]}, page ${name}`,
        ...PAPER,
        shapes: [
          outline('notes', 'narrow', corners(WINDOW)),
          ...overlapMarks(column < columns - 1, column > 0, row < rows - 1, row > 0),
          ...pageNotes(
            parts,
            drawing.side,
            `${name} (row ${rows - row} of ${rows}, column ${column + 1} of ${columns})`,
            drawing.face,
            warnings,
          ),
        ],
        warnings,
        window: { box: WINDOW, shapes: drawing.shapes.map((shape) => moved(shape, place)) },
      });
    }
  return tiles;
}

const corners = ({ low, high }: Box): readonly Point[] => [low, [high[0], low[1]], high, [low[0], high[1]]];

/** Dashed lines where the neighbour's edge comes to lie, and a cross at each end of them. */
function overlapMarks(right: boolean, left: boolean, above: boolean, below: boolean): readonly Shape[] {
  const { low, high } = WINDOW;
  const shapes: Shape[] = [];
  const xs = [...(left ? [low[0] + OVERLAP] : []), ...(right ? [high[0] - OVERLAP] : [])];
  const ys = [...(below ? [low[1] + OVERLAP] : []), ...(above ? [high[1] - OVERLAP] : [])];
  for (const x of xs) shapes.push(segment('notes', 'hidden', [x, low[1]], [x, high[1]]));
  for (const y of ys) shapes.push(segment('notes', 'hidden', [low[0], y], [high[0], y]));
  if (right)
    shapes.push(
      text(
        'notes',
        [high[0] - OVERLAP + 4, (low[1] + high[1]) / 2],
        3,
        'glue the next page over this strip',
        'middle',
        Math.PI / 2,
      ),
    );
  if (above)
    shapes.push(
      text(
        'notes',
        [(low[0] + high[0]) / 2, high[1] - OVERLAP + 3],
        3,
        'glue the page above over this strip',
        'middle',
      ),
    );
  return shapes;
}

function pageNotes(
  parts: BuildParts,
  side: PlateName,
  page: string,
  face: string,
  warnings: readonly string[],
): readonly Shape[] {
  const shapes: Shape[] = [];
  const [x, y] = [WINDOW.low[0], 12];
  shapes.push(segment('notes', 'narrow', [x, y], [x + 100, y]));
  shapes.push(segment('notes', 'narrow', [14, WINDOW.low[1] + 20], [14, WINDOW.low[1] + 120]));
  for (let n = 0; n <= 10; n++) {
    const tick = n % 5 === 0 ? 3 : 1.5;
    shapes.push(segment('notes', 'narrow', [x + 10 * n, y], [x + 10 * n, y + tick]));
    shapes.push(
      segment('notes', 'narrow', [14, WINDOW.low[1] + 20 + 10 * n], [14 - tick, WINDOW.low[1] + 20 + 10 * n]),
    );
  }
  shapes.push(text('notes', [x + 50, y + 4.5], 3, 'rule: 100 mm along x', 'middle'));
  shapes.push(text('notes', [9, WINDOW.low[1] + 70], 3, 'rule: 100 mm along y', 'middle', Math.PI / 2));
  const first = `${SIDE_WORDS[side]}, seen from ${face}${face === 'below' ? ' (mirrored)' : ''}. Page ${page}. Scale 1:1, unit mm.`;
  const lines = [
    cutToFit(parts.name, 3.5, 178),
    first,
    `Design ${parts.hash}, ${parts.date}, ${parts.program}. Measure both rules; check before cutting.`,
  ];
  for (const [n, line] of lines.entries()) shapes.push(text('notes', [x, 41 - 4.4 * n], n === 0 ? 3.5 : 3, line));
  const warned = warnings.flatMap((warning) => wrapped(`! ${warning}`, 2.5, 74));
  const shown = warned.length > 5 ? [...warned.slice(0, 4), '! more on the whole sheet'] : warned;
  for (const [n, line] of shown.entries()) shapes.push(text('notes', [x + 106, 26 - 3.6 * n], 2.5, line));
  return shapes;
}
