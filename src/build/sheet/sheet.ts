import { degrees as degreesOf } from '../../terms/units.ts';
import type { Point } from '../joint-mounts.ts';
import { shown } from '../numerals.ts';
import { type BuildParts, SIDE_WORDS } from '../parts.ts';
import { distance } from '../plate-holes.ts';
import { type Box, boxOf, circle, moved, outline, type Shape, segment, text } from './drawing.ts';
import { cutToFit, lettered, wrapped } from './letters.ts';
import type { PlateDrawing } from './plate-drawing.ts';

/** A sheet of paper with what is drawn on it [mm], origin at its lower left corner, y up. */
export interface Sheet {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  readonly warnings: readonly string[];
}

/** Sheets of ISO 216, landscape [mm]; past the largest the sheet is as large as it needs to be. */
export const PAPERS = [
  { name: 'A4', width: 297, height: 210 },
  { name: 'A3', width: 420, height: 297 },
  { name: 'A2', width: 594, height: 420 },
  { name: 'A1', width: 841, height: 594 },
  { name: 'A0', width: 1189, height: 841 },
] as const;

/** Borders of ISO 5457 (from memory): 20 mm at the filing edge, 10 mm elsewhere. */
const FILING_EDGE = 20;
const EDGE = 10;

/** Widest title block of ISO 7200 (from memory) [mm], and its height here. */
const TITLE_WIDTH = 180;
const TITLE_HEIGHT = 32;

/** Width of the column of notes and tables beside the drawing [mm]: the 100 mm rule and its figures fit. */
const COLUMN = 124;

/** Text of tables and notes [mm]: 2.5 mm capitals are the smallest of ISO 3098-1 (from memory). */
const SMALL = 3;
const LINE = 4.4;

/** Lays a drawing out on the smallest sheet that holds it, with rules, tables, notes, warnings and title block. */
export function sheetOf(parts: BuildParts, drawing: PlateDrawing): Sheet {
  const box = boxOf(drawing.shapes);
  const missing = lettered(parts.name).missing;
  const warnings = [
    ...parts.findings,
    ...drawing.warnings,
    ...(missing.length > 0
      ? [`The sheet's letters lack ${missing.slice(0, 5).join(' ')} of the name; they are drawn as "?".`]
      : []),
  ];
  const column = columnOf(parts, drawing, warnings);
  const paper = PAPERS.find((sheet) => placeOn(parts, drawing, box, sheet, column.height) !== null);
  const size = paper ?? {
    name: 'larger than A0',
    width: Math.ceil(box.high[0] - box.low[0] + COLUMN + FILING_EDGE + EDGE),
    height: Math.ceil(Math.max(box.high[1] - box.low[1], column.height) + TITLE_HEIGHT + 2 * EDGE),
  };
  const all = paper ? warnings : [...warnings, `The sheet is larger than A0: ${size.width} x ${size.height} mm.`];
  const noted = paper ? column : columnOf(parts, drawing, all);
  const right = size.width - EDGE;
  const top = size.height - EDGE;
  const middle = placeOn(parts, drawing, box, size, column.height) ?? [FILING_EDGE, EDGE + TITLE_HEIGHT];
  const place: Point = [middle[0] - box.low[0], middle[1] - box.low[1]];
  const title = `${SIDE_WORDS[drawing.side]}, seen from ${drawing.face}`;
  return {
    title,
    width: size.width,
    height: size.height,
    shapes: [
      outline('notes', 'seen', rectangle([FILING_EDGE, EDGE], [right, top])),
      ...drawing.shapes.map((shape) => moved(shape, place)),
      ...noted.shapes.map((shape) => moved(shape, [right - COLUMN, top])),
      ...titleBlock(parts, drawing, size.name, [right - TITLE_WIDTH, EDGE]),
    ],
    warnings: all,
  };
}

/**
 * Where the lower left corner of a drawing's box goes on a paper: in the middle of what column and title block leave; a plate that reaches
 * down beside the title block stands at the top. Null when it does not fit.
 */
function placeOn(
  parts: BuildParts,
  { side }: PlateDrawing,
  { low, high }: Box,
  paper: { readonly width: number; readonly height: number },
  columnHeight: number,
): Point | null {
  const [width, height] = [high[0] - low[0], high[1] - low[1]];
  const free = { width: paper.width - FILING_EDGE - EDGE - COLUMN, height: paper.height - 2 * EDGE };
  if (width > free.width || height > free.height || columnHeight + TITLE_HEIGHT > free.height) return null;
  const left = FILING_EDGE + (free.width - width) / 2;
  const above = free.height - TITLE_HEIGHT - height;
  if (above >= 0) return [left, EDGE + TITLE_HEIGHT + above / 2];
  const bottom = paper.height - EDGE - height;
  const title: Point = [paper.width - EDGE - TITLE_WIDTH, EDGE + TITLE_HEIGHT];
  if (left + width <= title[0]) return [left, bottom];
  const rim = parts.plates[side].outline;
  // a round plate leaves its corner to the title block
  const clear = Math.hypot(left + width / 2 - title[0], bottom + height / 2 - title[1]) - width / 2;
  return rim.kind === 'disc' && left + width / 2 < title[0] && clear > 0 ? [left, bottom] : null;
}

const rectangle = ([x, y]: Point, [right, top]: Point): readonly Point[] => [
  [x, y],
  [right, y],
  [right, top],
  [x, top],
];

/** A column of notes that hangs from its upper left corner. */
interface Column {
  readonly shapes: readonly Shape[];
  readonly height: number;
}

function columnOf(parts: BuildParts, drawing: PlateDrawing, warnings: readonly string[]): Column {
  const shapes: Shape[] = [];
  const left = 6;
  let y = -9;
  const write = (words: string, size = SMALL, x = left) => shapes.push(text('notes', [x, y], size, words));
  const next = (by = LINE) => {
    y -= by;
  };
  write(FACE_WORDS[drawing.face], 5);
  next(6);
  for (const line of wrapped(faceNote(drawing), SMALL, COLUMN - 2 * left)) {
    write(line);
    next();
  }
  if (warnings.length > 0) {
    next(2);
    const from = y + LINE;
    for (const warning of warnings)
      for (const [n, line] of wrapped(warning, SMALL, COLUMN - 3 * left).entries()) {
        if (n === 0) write('!', SMALL, left + 2);
        write(line, SMALL, left + 5);
        next();
      }
    shapes.push(outline('notes', 'seen', rectangle([left, y + 2], [COLUMN - left, from + 1])));
    next(4);
  }
  next(2);
  shapes.push(...rules([left, y]));
  next(112);
  for (const row of holeTable(parts, drawing)) {
    for (const [x, cell] of row) shapes.push(text('notes', [left + x, y], SMALL, cell, 'end'));
    next();
  }
  next(1);
  for (const line of notes(parts, drawing))
    for (const part of wrapped(line, SMALL, COLUMN - 2 * left)) {
      write(part);
      next();
    }
  return { shapes, height: -y };
}

const FACE_WORDS = {
  above: 'THIS FACE UP: seen from above',
  below: 'THIS FACE DOWN: seen from below',
} as const;

function faceNote({ side, face }: PlateDrawing): string {
  const joints = (side === 'base') === (face === 'above') ? 'on this face' : 'on the other face';
  const mirrored = face === 'below' ? ' Mirrored: x of the design runs to the left.' : '';
  return `Joints stand ${joints}. Legs count ${face === 'above' ? 'counter-clockwise' : 'clockwise'} on this sheet.${mirrored}`;
}

/** Two rules of exactly 100 mm, one along x and one along y, hanging from a corner. */
function rules([x, y]: Point): readonly Shape[] {
  const shapes: Shape[] = [
    segment('notes', 'narrow', [x + 4, y - 104], [x + 104, y - 104]),
    segment('notes', 'narrow', [x + 4, y - 104], [x + 4, y - 4]),
    text('notes', [x + 54, y - 100], SMALL, 'rule: 100 mm along x', 'middle'),
    text('notes', [x + 8, y - 54], SMALL, 'rule: 100 mm along y', 'middle', Math.PI / 2),
    text('notes', [x + 14, y - 16], SMALL, 'Measure both before cutting.'),
    text('notes', [x + 14, y - 16 - LINE], SMALL, 'If they are not 100 mm, the print'),
    text('notes', [x + 14, y - 16 - 2 * LINE], SMALL, 'is not to scale: print at 100 %.'),
  ];
  for (let n = 0; n <= 10; n++) {
    const tick = n % 5 === 0 ? 3 : 1.5;
    shapes.push(segment('notes', 'narrow', [x + 4 + 10 * n, y - 104], [x + 4 + 10 * n, y - 104 - tick]));
    shapes.push(segment('notes', 'narrow', [x + 4, y - 104 + 10 * n], [x + 4 - tick, y - 104 + 10 * n]));
  }
  return shapes;
}

/** Joint feet in the design's own coordinates, and check dimensions to the next leg, the next but one and the one across. */
function holeTable(parts: BuildParts, { plate }: PlateDrawing): readonly (readonly (readonly [number, string])[])[] {
  const columns = [7, 17, 34, 51, 66, 84, 102];
  const head = ['leg', 'hole', 'x', 'y', 'lean', 'toward', 'to next'];
  const rows = plate.mounts.map(({ leg, hole, foot, lean, toward }, n) => [
    String(leg),
    hole === null ? '-' : String(hole),
    shown(foot[0], 3),
    shown(foot[1], 3),
    `${shown(degreesOf(lean), 1)}`,
    `${shown(degreesOf(toward), 1)}`,
    shown(distance(foot, plate.mounts[(n + 1) % 6].foot), 3),
  ]);
  const across = [0, 1, 2].map((n) => {
    const length = shown(distance(plate.mounts[n].foot, plate.mounts[n + 3].foot), 3);
    return `${n + 1} to ${n + 4}: ${length}`;
  });
  const drilled = parts.choices.bolts === 'none' ? 'No bolt holes are drawn.' : '';
  return [
    ...[head, ...rows].map((row) => row.map((cell, n) => [columns[n], cell] as const)),
    across.map((cell, n) => [34 * (n + 1), cell] as const),
    ...(drilled === '' ? [] : [[[40, drilled] as const]]),
  ];
}

function notes(parts: BuildParts, { plate, side }: PlateDrawing): readonly string[] {
  const { choices, plates } = parts;
  const drills = plate.holes.length;
  const indexed = plate.holes.filter(({ use }) => use === 'index').length;
  const thickness = `Thickness ${shown(plates[side].thickness, 1)} mm${parts.assumed.plates ? ' (assumed)' : ''}.`;
  return [
    'Lean and toward in deg; toward is counted counter-clockwise from +X, seen from above.',
    `${drills} holes Ø ${choices.hole} mm${indexed > 0 ? `, ${indexed} of them indexed, hole 1 first from the start angle` : ''}. ${thickness}`,
    "Cautions: clamp the plate; no gloves at the drill; eyes protected. Local rules and the machine's manual come first.",
  ];
}

/** Title block: what, whose, when, how large; with the symbol of first-angle projection (ISO 5456-2, from memory). */
function titleBlock(parts: BuildParts, drawing: PlateDrawing, paper: string, [x, y]: Point): readonly Shape[] {
  const [right, top] = [x + TITLE_WIDTH, y + TITLE_HEIGHT];
  const field = (left: number, bottom: number, label: string, value: string, width: number, size = 3.5) => [
    text('notes', [x + left + 1.5, y + bottom + 5.2], 2.2, label),
    text('notes', [x + left + 1.5, y + bottom + 1.4], size, cutToFit(value, size, width - 3)),
  ];
  const line = (from: Point, to: Point) =>
    segment('notes', 'narrow', [x + from[0], y + from[1]], [x + to[0], y + to[1]]);
  return [
    outline('notes', 'seen', rectangle([x, y], [right, top])),
    line([0, 8], [180, 8]),
    line([0, 16], [180, 16]),
    line([0, 24], [180, 24]),
    line([140, 0], [140, 24]),
    line([100, 0], [100, 16]),
    line([50, 0], [50, 16]),
    ...field(0, 24, 'Design', parts.name, 180),
    ...field(0, 16, 'Part', `${SIDE_WORDS[drawing.side]}, seen from ${drawing.face}`, 140),
    ...field(140, 16, 'Check', 'before cutting', 40),
    ...field(0, 8, 'Scale', '1:1', 50),
    ...field(50, 8, 'Unit', 'mm', 50),
    ...field(100, 8, 'Sheet', paper, 40),
    text('notes', [x + 141.5, y + 13.2], 2.2, 'Projection'),
    ...projection([x + 163, y + 11.5]),
    ...field(0, 0, 'Date', parts.date, 50),
    ...field(50, 0, 'Design hash', parts.hash, 50),
    ...field(100, 0, 'Made with', parts.program, 40),
    ...field(140, 0, 'Tolerance', 'agree with workshop', 40, 3),
  ];
}

/** First-angle projection: a cone from the side, then its end seen from the left drawn on the right. */
function projection([x, y]: Point): readonly Shape[] {
  return [
    outline('notes', 'narrow', [
      [x - 8, y - 1.5],
      [x, y - 3],
      [x, y + 3],
      [x - 8, y + 1.5],
    ]),
    segment('notes', 'centre', [x - 10, y], [x + 2, y]),
    circle('notes', 'narrow', [x + 7, y], 3),
    circle('notes', 'narrow', [x + 7, y], 1.5),
    segment('notes', 'centre', [x + 3, y], [x + 11, y]),
    segment('notes', 'centre', [x + 7, y - 3.6], [x + 7, y + 3.6]),
  ];
}
