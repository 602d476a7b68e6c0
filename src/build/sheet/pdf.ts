import type { PlateName } from '../../kinematics/layout.ts';
import { failed, ok } from '../../math/result.ts';
import { type BuildFile, CANCELLED, type Exporter } from '../exporter.ts';
import type { Point } from '../joint-mounts.ts';
import type { BuildParts } from '../parts.ts';
import { type Box, LINE_DASHES, LINE_WIDTHS, type Shape } from './drawing.ts';
import { drawingName } from './drawings.ts';
import { type FontPart, lettered } from './letters.ts';
import { PdfFile, real, textString } from './pdf-file.ts';
import { embedFont, glyphString, usedLetters } from './pdf-font.ts';
import { facesOf, plateDrawing } from './plate-drawing.ts';
import { PAPERS, type Sheet, sheetOf } from './sheet.ts';
import { MOST_TILES, type Tile, tilesOf } from './tiles.ts';

/** Points in a millimetre; a point is 1/72 inch. */
const POINTS = 72 / 25.4;

/** Arcs a circle is made of: 16 Bezier arcs are within 4e-9 of its radius (derived: the error of one goes with the sixth power of its angle). */
const ARCS = 16;

export const pdf: Exporter = {
  words: 'PDF drawing, 1:1',
  says: 'Both plates on one sheet each, and the same cut up for A4 where that sheet is larger.',
  purpose: 'cut',
  ending: 'pdf',
  async write(parts, sides, work) {
    const files: BuildFile[] = [];
    const jobs = sides.flatMap((side) => facesOf(parts).map((face) => ({ side, face })));
    for (const [n, { side, face }] of jobs.entries()) {
      if (work.shouldStop()) return failed(CANCELLED);
      work.report(n, jobs.length);
      const drawing = plateDrawing(parts, side, face);
      const sheet = sheetOf(parts, drawing);
      const name = drawingName(parts, side, face);
      const larger = sheet.width > PAPERS[0].width;
      const tiles = larger ? tilesOf(parts, drawing, sheet.warnings) : [];
      const tooMany = tiles === null ? [`Not cut up for A4: it would take more than ${MOST_TILES} pages.`] : [];
      files.push(await file(parts, side, `${name}.pdf`, [sheet], [...sheet.warnings, ...tooMany]));
      if (tiles && tiles.length > 0) files.push(await file(parts, side, `${name}-A4.pdf`, tiles, sheet.warnings));
    }
    return ok(files);
  },
};

async function file(
  parts: BuildParts,
  side: PlateName,
  name: string,
  sheets: readonly (Sheet | Tile)[],
  warnings: readonly string[],
): Promise<BuildFile> {
  return { name, side, bytes: await sheetsPdf(sheets, parts.date, parts.hash), warnings };
}

/** Sheets as pages of one PDF in true size, lettered with the embedded font; the same sheets, day and hash give the same bytes. */
export async function sheetsPdf(sheets: readonly (Sheet | Tile)[], date: string, hash: string): Promise<Uint8Array> {
  const { default: fonts } = await import('./letters.json');
  const pdfFile = new PdfFile();
  const pages = pdfFile.reserve();
  const names = new Map<FontPart, string>();
  let resources = '';
  for (const [part, letters] of usedLetters(sheets.flatMap(textsOf))) {
    const name = `F${names.size + 1}`;
    names.set(part, name);
    resources += `/${name} ${embedFont(pdfFile, part, fonts[part], letters)} 0 R `;
  }
  const numbers = sheets.map((sheet) => {
    const content = pdfFile.addStream(pageContent(sheet, names));
    const size = `[0 0 ${real(sheet.width * POINTS)} ${real(sheet.height * POINTS)}]`;
    return pdfFile.add(
      `<< /Type /Page /Parent ${pages} 0 R /MediaBox ${size} /Resources << /Font << ${resources}>> >> /Contents ${content} 0 R >>`,
    );
  });
  const kids = numbers.map((number) => `${number} 0 R`).join(' ');
  pdfFile.add(`<< /Type /Pages /Kids [${kids}] /Count ${numbers.length} >>`, pages);
  // a viewer is asked not to shrink the page when it prints
  const catalog = pdfFile.add(`<< /Type /Catalog /Pages ${pages} 0 R /ViewerPreferences << /PrintScaling /None >> >>`);
  const day = `D:${date.replaceAll('-', '')}000000Z`;
  const info = pdfFile.add(`<< /Title ${textString(sheets[0].title)} /CreationDate (${day}) /ModDate (${day}) >>`);
  return pdfFile.finish(catalog, info, fileId(hash));
}

const textsOf = (sheet: Sheet | Tile): readonly string[] =>
  [...sheet.shapes, ...('window' in sheet ? sheet.window.shapes : [])].flatMap((shape) =>
    shape.kind === 'text' ? [shape.text] : [],
  );

/** The format wants 32 hexadecimal digits. */
function fileId(hash: string): string {
  let digits = '';
  for (const letter of hash) digits += letter.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0');
  return digits.padEnd(32, '0').slice(0, 32);
}

/** A page's drawing: millimetres with y up, scaled once at the top. */
function pageContent(sheet: Sheet | Tile, fonts: ReadonlyMap<FontPart, string>): string {
  const lines = [`q ${real(POINTS)} 0 0 ${real(POINTS)} 0 0 cm 1 j`];
  if ('window' in sheet) {
    const { box, shapes } = sheet.window;
    const [width, height] = [box.high[0] - box.low[0], box.high[1] - box.low[1]];
    lines.push(`q ${real(box.low[0])} ${real(box.low[1])} ${real(width)} ${real(height)} re W n`);
    for (const shape of shapes) if (meets(shape, box)) lines.push(drawn(shape, fonts));
    lines.push('Q');
  }
  for (const shape of sheet.shapes) lines.push(drawn(shape, fonts));
  lines.push('Q');
  return `${lines.join('\n')}\n`;
}

/** Whether a shape can show in a window; paths and texts are always drawn and end at its edge. */
function meets(shape: Shape, { low, high }: Box): boolean {
  if (shape.kind !== 'circle') return true;
  const { centre, radius } = shape;
  return [0, 1].every((axis) => centre[axis] + radius >= low[axis] && centre[axis] - radius <= high[axis]);
}

function drawn(shape: Shape, fonts: ReadonlyMap<FontPart, string>): string {
  if (shape.kind === 'text') return textOperators(shape, fonts);
  const corner = ([x, y]: Point) => `${real(x)} ${real(y)}`;
  const outlined =
    shape.kind === 'circle'
      ? circleOperators(shape.centre, shape.radius)
      : `${shape.points.map((point, n) => `${corner(point)} ${n === 0 ? 'm' : 'l'}`).join(' ')}${shape.closed ? ' h' : ''}`;
  if (shape.kind === 'path' && shape.filled) return `${outlined} f`;
  const dashes = LINE_DASHES[shape.line];
  return `${LINE_WIDTHS[shape.line]} w [${dashes.join(' ')}] 0 d ${outlined} S`;
}

function circleOperators([cx, cy]: Point, radius: number): string {
  const step = (2 * Math.PI) / ARCS;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (angle: number, along: number): string => {
    const x = cx + radius * Math.cos(angle) - along * Math.sin(angle);
    const y = cy + radius * Math.sin(angle) + along * Math.cos(angle);
    return `${real(x)} ${real(y)}`;
  };
  const arcs = Array.from(
    { length: ARCS },
    (_, n) => `${at(n * step, handle)} ${at((n + 1) * step, -handle)} ${at((n + 1) * step, 0)} c`,
  );
  return `${at(0, 0)} m ${arcs.join(' ')} h`;
}

function textOperators(shape: Extract<Shape, { kind: 'text' }>, fonts: ReadonlyMap<FontPart, string>): string {
  const { runs, width } = lettered(shape.text);
  const [c, s] = [Math.cos(shape.turn), Math.sin(shape.turn)];
  let along = -{ start: 0, middle: 0.5, end: 1 }[shape.anchor] * width * shape.size;
  const operators = runs.map(({ part, text }) => {
    const place = `${real(shape.at[0] + along * c)} ${real(shape.at[1] + along * s)}`;
    along += lettered(text).width * shape.size;
    const font = `/${fonts.get(part) ?? ''} ${real(shape.size)} Tf`;
    return `BT ${font} ${real(c)} ${real(s)} ${real(-s)} ${real(c)} ${place} Tm ${glyphString(part, text)} Tj ET`;
  });
  return operators.join('\n');
}
