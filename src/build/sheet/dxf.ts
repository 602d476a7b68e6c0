import type { Point } from '../joint-mounts.ts';
import { decimal } from '../numerals.ts';
import { boxOf, type Layer, type Shape } from './drawing.ts';

/** Digits after the point [mm]: a millionth of a millimetre. */
const DIGITS = 6;

/** Layers with the colour numbers of the format: white, red, blue, green. */
const LAYERS: Readonly<Record<Layer, { readonly name: string; readonly colour: number }>> = {
  cut: { name: 'CUT', colour: 1 },
  drill: { name: 'DRILL', colour: 5 },
  engrave: { name: 'ENGRAVE', colour: 3 },
  notes: { name: 'NOTES', colour: 7 },
};

/**
 * Shapes as DXF of release 12 (AC1009), which old cutters read: CIRCLE, LINE, POLYLINE and TEXT; millimetres; CR LF; ASCII only, other characters
 * as `\U+XXXX`. Line kinds stay with the layers: a cutter follows layers, and linetypes would have to be defined first.
 */
export function drawingDxf(shapes: readonly Shape[]): string {
  const { low, high } = boxOf(shapes);
  const header = [
    ...section('HEADER'),
    ...pair(9, '$ACADVER'),
    ...pair(1, 'AC1009'),
    ...pair(9, '$INSUNITS'),
    ...pair(70, '4'),
    ...pair(9, '$MEASUREMENT'),
    ...pair(70, '1'),
    ...pair(9, '$EXTMIN'),
    ...point(10, low),
    ...pair(9, '$EXTMAX'),
    ...point(10, high),
    ...pair(0, 'ENDSEC'),
  ];
  const layers = Object.values(LAYERS);
  const tables = [
    ...section('TABLES'),
    ...pair(0, 'TABLE'),
    ...pair(2, 'LTYPE'),
    ...pair(70, '1'),
    ...pair(0, 'LTYPE'),
    ...pair(2, 'CONTINUOUS'),
    ...pair(70, '64'),
    ...pair(3, 'Solid line'),
    ...pair(72, '65'),
    ...pair(73, '0'),
    ...pair(40, '0.0'),
    ...pair(0, 'ENDTAB'),
    ...pair(0, 'TABLE'),
    ...pair(2, 'LAYER'),
    ...pair(70, String(layers.length)),
    ...layers.flatMap(({ name, colour }) => [
      ...pair(0, 'LAYER'),
      ...pair(2, name),
      ...pair(70, '64'),
      ...pair(62, String(colour)),
      ...pair(6, 'CONTINUOUS'),
    ]),
    ...pair(0, 'ENDTAB'),
    ...pair(0, 'TABLE'),
    ...pair(2, 'STYLE'),
    ...pair(70, '1'),
    ...pair(0, 'STYLE'),
    ...pair(2, 'STANDARD'),
    ...pair(70, '64'),
    ...pair(40, '0.0'),
    ...pair(41, '1.0'),
    ...pair(50, '0.0'),
    ...pair(71, '0'),
    ...pair(42, '2.5'),
    ...pair(3, 'txt'),
    ...pair(4, ''),
    ...pair(0, 'ENDTAB'),
    ...pair(0, 'ENDSEC'),
  ];
  const blocks = [...section('BLOCKS'), ...pair(0, 'ENDSEC')];
  const entities = [...section('ENTITIES'), ...shapes.flatMap(entity), ...pair(0, 'ENDSEC'), ...pair(0, 'EOF')];
  return `${[...header, ...tables, ...blocks, ...entities].join('\r\n')}\r\n`;
}

const section = (name: string): readonly string[] => [...pair(0, 'SECTION'), ...pair(2, name)];

const pair = (code: number, value: string): readonly string[] => [String(code).padStart(3), value];

const real = (value: number): string => {
  const digits = decimal(value, DIGITS);
  return digits.includes('.') ? digits : `${digits}.0`;
};

const point = (code: number, [x, y]: Point): readonly string[] => [
  ...pair(code, real(x)),
  ...pair(code + 10, real(y)),
  ...pair(code + 20, '0.0'),
];

function entity(shape: Shape): readonly string[] {
  const layer = pair(8, LAYERS[shape.layer].name);
  switch (shape.kind) {
    case 'circle':
      return [...pair(0, 'CIRCLE'), ...layer, ...point(10, shape.centre), ...pair(40, real(shape.radius))];
    case 'path':
      return shape.points.length === 2
        ? [...pair(0, 'LINE'), ...layer, ...point(10, shape.points[0]), ...point(11, shape.points[1])]
        : [
            ...pair(0, 'POLYLINE'),
            ...layer,
            ...pair(66, '1'),
            ...point(10, [0, 0]),
            ...pair(70, shape.closed ? '1' : '0'),
            ...shape.points.flatMap((corner) => [...pair(0, 'VERTEX'), ...layer, ...point(10, corner)]),
            ...pair(0, 'SEQEND'),
            ...layer,
          ];
    case 'text': {
      const justified = { start: '0', middle: '1', end: '2' }[shape.anchor];
      return [
        ...pair(0, 'TEXT'),
        ...layer,
        ...point(10, shape.at),
        ...pair(40, real(CAPITAL * shape.size)),
        ...pair(1, dxfText(shape.text)),
        ...pair(50, real((shape.turn * 180) / Math.PI)),
        ...(justified === '0' ? [] : [...pair(72, justified), ...point(11, shape.at)]),
      ];
    }
  }
}

/** The format measures a text by its capital letters, the drawing by its nominal size. */
const CAPITAL = 0.7;

/** Text codes of the format: diameter, degree and plus-minus signs have names, a percent sign is doubled, the rest is by number. */
function dxfText(words: string): string {
  let out = '';
  for (const letter of words.replace(/\s/gu, ' ')) {
    const code = letter.codePointAt(0) ?? 32;
    if (letter === 'Ø') out += '%%c';
    else if (letter === '°') out += '%%d';
    else if (letter === '±') out += '%%p';
    else if (letter === '−') out += '-';
    else if (letter === '%') out += '%%%';
    else if (code >= 32 && code < 127) out += letter;
    else if (code < 32) out += '';
    // beyond four digits the code has no form; such letters are rare in names, and a mark says that one stood here
    else out += code <= 0xffff ? `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}` : '?';
  }
  return out;
}
