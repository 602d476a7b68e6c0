import type { PlateName } from '../../kinematics/layout.ts';
import { ok } from '../../math/result.ts';
import { type BuildFile, type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import type { BuildParts } from '../parts.ts';
import { boxOf, text } from './drawing.ts';
import { drawingDxf } from './dxf.ts';
import { type Face, facesOf, plateDrawing } from './plate-drawing.ts';
import { type Sheet, sheetOf } from './sheet.ts';
import { sheetSvg } from './svg.ts';

/** Name of a drawing's file, without its ending. */
export const drawingName = (parts: BuildParts, side: PlateName, face: Face): string =>
  `${fileStem(parts.name)}-${side}${face === 'below' ? '-mirrored' : ''}`;

/** The sheets of a plate, one a face that is asked for. */
export const plateSheets = (parts: BuildParts, side: PlateName): readonly { face: Face; sheet: Sheet }[] =>
  facesOf(parts).map((face) => ({ face, sheet: sheetOf(parts, plateDrawing(parts, side, face)) }));

export const svg: Exporter = {
  words: 'SVG drawing',
  says: 'Both plates 1:1 with rules, tables and title block; one file a plate and face.',
  purpose: 'cut',
  ending: 'svg',
  write: async (parts, sides) =>
    ok(
      sides.flatMap((side) =>
        plateSheets(parts, side).map(({ face, sheet }) =>
          textFile(`${drawingName(parts, side, face)}.svg`, side, sheetSvg(sheet), sheet.warnings),
        ),
      ),
    ),
};

export const dxf: Exporter = {
  words: 'DXF for the cutter',
  says: 'Release 12, mm; layers CUT, DRILL, ENGRAVE, NOTES; the outline moved by half a kerf.',
  purpose: 'cut',
  ending: 'dxf',
  write: async (parts, sides) => ok(sides.flatMap((side) => facesOf(parts).map((face) => plateDxf(parts, side, face)))),
};

function plateDxf(parts: BuildParts, side: PlateName, face: Face): BuildFile {
  const { shapes, warnings } = plateDrawing(parts, side, face, parts.choices.kerf);
  const { low } = boxOf(shapes);
  const { kerf } = parts.choices;
  const lines = [
    `${parts.name}: ${side} plate, seen from ${face}${face === 'below' ? ' (mirrored)' : ''}. Unit: mm. Scale 1:1.`,
    `Design ${parts.hash}, ${parts.date}, ${parts.program}. Check before cutting.`,
    kerf > 0
      ? `CUT stands half a kerf of ${kerf} mm outside the plate. DRILL is nominal.`
      : 'CUT is nominal: no kerf. DRILL is nominal.',
    ...[...parts.findings, ...warnings].map((warning) => `! ${warning}`),
  ];
  const size = 3.5;
  const noted = lines.map((line, n) => text('notes', [low[0], low[1] - (n + 2) * 1.6 * size], size, line));
  return textFile(`${drawingName(parts, side, face)}.dxf`, side, drawingDxf([...shapes, ...noted]), [
    ...parts.findings,
    ...warnings,
  ]);
}
