import { decimal } from '../numerals.ts';
import { LINE_DASHES, LINE_WIDTHS, type Shape } from './drawing.ts';
import type { Sheet } from './sheet.ts';

/** A millionth of a millimetre: far below any printer, and short. */
const DIGITS = 6;

/** A sheet as SVG 1.1 in true size: `width` and `height` in mm, one user unit a millimetre. Layers are groups of their name. */
export function sheetSvg({ title, width, height, shapes, warnings }: Sheet): string {
  const n = (value: number) => decimal(value, DIGITS);
  const body = shapes.map((shape) => shapeSvg(shape, height)).join('\n');
  const description = warnings.length > 0 ? `\n<desc>${escaped(warnings.join(' '))}</desc>` : '';
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}mm" height="${n(height)}mm" viewBox="0 0 ${n(width)} ${n(height)}">
<title>${escaped(title)}</title>${description}
<style>
path, circle { fill: none; stroke: #000; stroke-linejoin: round }
path.filled { fill: #000; stroke: none }
text { font-family: "Public Sans Variable", "Public Sans", sans-serif; fill: #000 }
${Object.entries(LINE_WIDTHS)
  .map(([line, wide]) => `.${line} { stroke-width: ${wide}${dashes(line)} }`)
  .join('\n')}
</style>
<rect width="100%" height="100%" fill="#fff"/>
${body}
</svg>
`;
}

function dashes(line: string): string {
  const lengths = Object.entries(LINE_DASHES).find(([name]) => name === line)?.[1] ?? [];
  return lengths.length > 0 ? `; stroke-dasharray: ${lengths.join(' ')}` : '';
}

function shapeSvg(shape: Shape, height: number): string {
  const n = (value: number) => decimal(value, DIGITS);
  const y = (value: number) => n(height - value);
  switch (shape.kind) {
    case 'circle':
      return `<circle class="${shape.line} ${shape.layer}" cx="${n(shape.centre[0])}" cy="${y(shape.centre[1])}" r="${n(shape.radius)}"/>`;
    case 'path': {
      const corners = shape.points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${n(px)} ${y(py)}`).join('');
      const style = shape.filled ? 'filled' : shape.line;
      return `<path class="${style} ${shape.layer}" d="${corners}${shape.closed ? 'Z' : ''}"/>`;
    }
    case 'text': {
      const at = `x="${n(shape.at[0])}" y="${y(shape.at[1])}"`;
      const turn =
        shape.turn === 0
          ? ''
          : ` transform="rotate(${n((-shape.turn * 180) / Math.PI)} ${n(shape.at[0])} ${y(shape.at[1])})"`;
      const anchor = shape.anchor === 'start' ? '' : ` text-anchor="${shape.anchor}"`;
      return `<text class="${shape.layer}" ${at} font-size="${n(shape.size)}"${anchor}${turn}>${escaped(shape.text)}</text>`;
    }
  }
}

/** Text inside XML; characters that XML 1.0 cannot hold are left out. */
export const escaped = (words: string): string =>
  words
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
