import type { PlateName } from '../../kinematics/layout.ts';
import { legStates } from '../../kinematics/legs.ts';
import { ok } from '../../math/result.ts';
import type { Exporter } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { jointMounts, type Point } from '../joint-mounts.ts';
import { shown } from '../numerals.ts';
import { type BuildParts, SIDE_WORDS, SIDES } from '../parts.ts';
import { circle, outline, type Shape, segment, text } from '../sheet/drawing.ts';
import { cutToFit, wrapped } from '../sheet/letters.ts';
import { sheetsPdf } from '../sheet/pdf.ts';
import { plateReach } from '../sheet/plate-drawing.ts';
import type { Sheet } from '../sheet/sheet.ts';

export const paper: Exporter = {
  words: 'Paper platform',
  says: 'A print, cut and fold model on A4: both plates and six leg strips at the lengths they have at home.',
  purpose: 'print',
  ending: 'pdf',
  async write(parts) {
    const warnings = [...parts.findings, ...fitWarnings(parts)];
    const sheets = [...SIDES.map((side) => plateSheet(parts, side, warnings)), ...stripSheets(parts, warnings)];
    const bytes = await sheetsPdf(sheets, parts.date, parts.hash);
    return ok([{ name: `${fileStem(parts.name)}-paper.pdf`, side: null, bytes, warnings }]);
  },
};

/** A4, upright [mm]; what a printer leaves white is kept free. */
const PAPER = { width: 210, height: 297 };
const EDGE = 12;

/** Height of the strip at the foot of a page for its rule and words [mm]. */
const FOOT = 42;

/** A leg strip is folded once along its middle; its ends are glued under the plates [mm]. */
const STRIP = 14;
const TAB = 12;

/** Longest leg that fits a page with its two tabs [mm]. */
const LONGEST = PAPER.height - 2 * EDGE - FOOT - 2 * TAB - 6;

function fitWarnings(parts: BuildParts): readonly string[] {
  const scale = parts.choices.paperScale;
  const radius = Math.max(...SIDES.map((side) => plateReach(parts, side))) / scale;
  const length = Math.max(...legStates(parts.mechanism, parts.mechanism.home).map((leg) => leg.length)) / scale;
  const fits = radius <= PAPER.width / 2 - EDGE && length <= LONGEST;
  if (fits) return [];
  const need = scale * Math.max(radius / (PAPER.width / 2 - EDGE), length / LONGEST);
  return [`The paper platform runs over its page at 1 : ${scale}; 1 : ${Math.ceil(need)} fits.`];
}

function plateSheet(parts: BuildParts, side: PlateName, warnings: readonly string[]): Sheet {
  const scale = parts.choices.paperScale;
  const middle: Point = [PAPER.width / 2, (PAPER.height + FOOT) / 2];
  const at = ([x, y]: Point): Point => [middle[0] + x / scale, middle[1] + y / scale];
  const { outline: rim, opening } = parts.plates[side];
  const shapes: Shape[] = [];
  if (rim.kind === 'disc') shapes.push(circle('cut', 'seen', middle, rim.radius / scale));
  else {
    const corners = Array.from(
      { length: rim.points.length / 2 },
      (_, n): Point => [rim.points[2 * n], rim.points[2 * n + 1]],
    );
    shapes.push(outline('cut', 'seen', corners.map(at)));
  }
  if (opening > 0) shapes.push(circle('cut', 'seen', middle, opening / scale));
  const away = side === 'base' ? 'narrow' : 'hidden';
  for (const { foot, leg, azimuth } of jointMounts(parts, side)) {
    const [x, y] = at(foot);
    shapes.push(circle('engrave', away, [x, y], 3), segment('engrave', 'narrow', [x - 2, y], [x + 2, y]));
    shapes.push(segment('engrave', 'narrow', [x, y - 2], [x, y + 2]));
    const inward = [x - 7 * Math.cos(azimuth), y - 7 * Math.sin(azimuth)] as const;
    shapes.push(text('engrave', [inward[0], inward[1] - 1.3], 4, String(leg), 'middle'));
  }
  shapes.push(text('engrave', [middle[0], middle[1] - 1.5], 4, side === 'base' ? 'BASE' : 'PLATFORM', 'middle'));
  const marks =
    side === 'base' ? 'Glue the legs on this face' : 'Prick the crosses through; glue the legs on the other face';
  return page(parts, `${SIDE_WORDS[side]}, seen from above`, `${marks}, each at its number.`, shapes, warnings);
}

function stripSheets(parts: BuildParts, warnings: readonly string[]): readonly Sheet[] {
  const scale = parts.choices.paperScale;
  const shapes: Shape[] = [];
  const bottom = FOOT + EDGE;
  for (const { leg, length } of legStates(parts.mechanism, parts.mechanism.home)) {
    const left = EDGE + 6 + (leg - 1) * (STRIP + 16);
    const size = length / scale;
    const [low, high] = [bottom + TAB, bottom + TAB + size];
    shapes.push(
      outline('cut', 'seen', [
        [left, bottom],
        [left + STRIP, bottom],
        [left + STRIP, high + TAB],
        [left, high + TAB],
      ]),
    );
    for (const y of [low, high]) shapes.push(segment('engrave', 'hidden', [left, y], [left + STRIP, y]));
    shapes.push(segment('engrave', 'centre', [left + STRIP / 2, low], [left + STRIP / 2, high]));
    shapes.push(text('engrave', [left + STRIP / 2, bottom + 4], 4, `${leg} base`, 'middle'));
    shapes.push(text('engrave', [left + STRIP / 2, high + 4], 4, `${leg} top`, 'middle'));
    const words = `leg ${leg}: ${shown(length, 2)} mm`;
    shapes.push(text('engrave', [left + STRIP / 2 - 2, (low + high) / 2], 3, words, 'middle', Math.PI / 2));
  }
  const how =
    'Cut out; score the dashed lines, which stand at the joint centres, and bend the tabs; fold along the middle.';
  return [page(parts, 'Leg strips at their lengths at home', how, shapes, warnings)];
}

function page(
  parts: BuildParts,
  title: string,
  how: string,
  shapes: readonly Shape[],
  warnings: readonly string[],
): Sheet {
  const scale = parts.choices.paperScale;
  const foot: Shape[] = [
    segment('notes', 'narrow', [EDGE, 10], [EDGE + 100, 10]),
    segment('notes', 'narrow', [6, 60], [6, 160]),
    text('notes', [EDGE + 50, 13], 3, 'rule: 100 mm along x', 'middle'),
    text('notes', [10, 110], 3, 'rule: 100 mm along y', 'middle', Math.PI / 2),
  ];
  for (let n = 0; n <= 10; n++) {
    foot.push(segment('notes', 'narrow', [EDGE + 10 * n, 10], [EDGE + 10 * n, 8]));
    foot.push(segment('notes', 'narrow', [6, 60 + 10 * n], [4, 60 + 10 * n]));
  }
  const width = PAPER.width - 2 * EDGE;
  const lines = [
    cutToFit(`${parts.name}: paper platform 1 : ${scale}`, 4, width),
    `${title}. Design ${parts.hash}, ${parts.date}, ${parts.program}.`,
    ...wrapped(how, 3, width),
    ...warnings.slice(0, 2).flatMap((warning) => wrapped(`! ${warning}`, 3, width)),
  ];
  for (const [n, line] of lines.entries()) foot.push(text('notes', [EDGE, FOOT - 4.4 * n], n === 0 ? 4 : 3, line));
  return { title, ...PAPER, shapes: [...shapes, ...foot], warnings };
}
