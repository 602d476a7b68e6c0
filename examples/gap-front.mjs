// Pairs of gaps that no other pair beats in both reach and firmness: node gap-front.mjs design.json
import { readFileSync } from 'node:fs';
import { degrees, radians, readDesign, sweptDesign } from 'legroom/document';
import {
  dimensionsAt,
  evenly,
  FIGURE_COUNT,
  gridSize,
  namedFigures,
  neverStop,
  paretoFront,
  sweepRows,
} from 'legroom/explore';

const design = readDesign(readFileSync(process.argv[2]));
if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join('\n'));
const swept = sweptDesign(design.value);
if (!swept.ok) throw new Error(swept.fault.map(({ message }) => message).join('\n'));

const gaps = evenly(radians(5), radians(115), 12);
const grid = [
  /** @type {const} */ ({ name: 'baseGap', values: gaps }),
  /** @type {const} */ ({ name: 'platformGap', values: gaps }),
];
const options = { tilt: radians(10), firmnessFloor: 0.25, deadLength: 0 };
const indices = Array.from({ length: gridSize(grid) }, (_, n) => n);
const rows = sweepRows({ design: swept.value, grid, options }, indices, neverStop);

const figures = indices.map((n) => namedFigures(rows, n * FIGURE_COUNT));
const more = (/** @type {'reach' | 'homeFirmness'} */ name) => ({
  values: Float64Array.from(figures, (row) => row[name]),
  better: /** @type {const} */ ('more'),
});
console.log('baseGap_deg,platformGap_deg,reach_cm3,firmness');
for (const n of paretoFront(indices, [more('reach'), more('homeFirmness')])) {
  const { baseGap = 0, platformGap = 0 } = dimensionsAt(grid, n);
  const { reach, homeFirmness } = figures[n];
  console.log([degrees(baseGap), degrees(platformGap), reach / 1000, homeFirmness].map((x) => x.toFixed(3)).join(','));
}
