import { assessArchitecture } from '../../kinematics/architecture.ts';
import { assessClearance } from '../../kinematics/clearance.ts';
import { assessIndependence } from '../../kinematics/independence.ts';
import { assessForces } from '../../kinematics/statics.ts';
import { ok } from '../../math/result.ts';
import { type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { shown } from '../numerals.ts';
import { type BuildParts, SIDES } from '../parts.ts';
import { plateSheets } from '../sheet/drawings.ts';
import { escaped, sheetSvg } from '../sheet/svg.ts';
import type { Cell, Table } from '../tables/csv.ts';
import { tablesOf } from '../tables/tables.ts';

export const report: Exporter = {
  words: 'Report',
  says: 'A page to print (A4 or Letter): layout, figures and how they were computed, drawings, tables, cautions.',
  purpose: 'file',
  ending: 'html',
  write: async (parts) =>
    ok([textFile(`${fileStem(parts.name)}-report.html`, null, reportHtml(parts), parts.findings)]),
};

/** Tables with more rows stay out of the report; they are files of their own. */
const LONGEST_TABLE = 14;

function reportHtml(parts: BuildParts): string {
  const { name, note, hash, date, program, findings } = parts;
  const sheets = SIDES.flatMap((side) => plateSheets(parts, side));
  const drawings = sheets.map(
    ({ sheet }) =>
      `<figure><div class="drawing">${inlineSvg(sheetSvg(sheet))}</div><figcaption>${escaped(sheet.title)}. Scaled to fit this page: print the PDF for 1:1.</figcaption></figure>`,
  );
  const tables = tablesOf(parts, SIDES).filter(({ rows }) => rows.length <= LONGEST_TABLE);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(name)}: report</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>${escaped(name)}</h1>
<p>Design hash <strong>${escaped(hash)}</strong>, ${escaped(date)}, ${escaped(program)}. Check before building.</p>
</header>
${note === '' ? '' : `<p class="note">${escaped(note)}</p>`}
<section><h2>Findings</h2>
${findings.length === 0 ? '<p>None at the home pose.</p>' : `<ul class="warn">${findings.map((finding) => `<li>${escaped(finding)}</li>`).join('')}</ul>`}
</section>
<section><h2>Figures at home</h2>
${figures(parts)}
</section>
<section><h2>What was assumed</h2>
<ul>${assumptions(parts)
    .map((line) => `<li>${escaped(line)}</li>`)
    .join('')}</ul>
</section>
<section><h2>Tables</h2>
${tables.map(tableHtml).join('\n')}
</section>
<section><h2>Drawings</h2>
${drawings.join('\n')}
</section>
<section><h2>Cautions</h2>
<ul>
${CAUTIONS.map((line) => `<li>${line}</li>`).join('\n')}
</ul>
<p>Standards to start from: ISO 12100 (risk assessment), ISO 13849-1 and -2 (safety-related control), ISO 13850 (emergency stop), ISO 14118 (unexpected start-up), ISO 14120 (guards), IEC 60204-1 (electrical equipment). Local codes and a licensed engineer decide.</p>
</section>
</body>
</html>
`;
}

/** A figure, what it says, and how it was computed. */
function figures(parts: BuildParts): string {
  const { mechanism, load } = parts;
  const { verdict, condition, magnification } = assessIndependence(
    mechanism,
    mechanism.home,
    assessArchitecture(mechanism),
  );
  const forces = assessForces(mechanism, mechanism.home, load);
  const clearance = assessClearance(mechanism, mechanism.home, parts.clearance);
  const nearest = clearance.ok ? clearance.value.smallest : null;
  const bound = (value: number) => (Number.isFinite(value) ? shown(value, 2) : 'no bound');
  const rows: readonly (readonly [string, string, string])[] = [
    [
      'Legs hold the platform',
      `${verdict.word}. ${verdict.reason}`,
      'Singular values of the 6 x 6 Jacobian, rotations divided by the characteristic length; rank at six generic poses.',
    ],
    [
      'Magnification',
      bound(magnification),
      'Largest move of the tool for a unit of play in the legs: 1 over the smallest singular value.',
    ],
    ['Condition', bound(condition), 'Largest over smallest singular value of the same matrix.'],
    [
      'Leg forces',
      forces.ok
        ? `${Array.from(forces.value.forces, (force) => shown(force, 2)).join(', ')} N, leg 1 first`
        : 'no finite forces',
      `At rest, from the principle of virtual work: J^T f = -w, for ${shown(load.payload.mass, 2)} kg; positive pushes.`,
    ],
    [
      'Least distance of two bodies',
      nearest ? `${shown(nearest.distance, 2)} mm between ${nearest.a} and ${nearest.b}` : 'nothing can meet',
      'Surface to surface of barrels, rods, plates, payload and keep-outs.',
    ],
  ];
  return `<table><thead><tr><th>Figure</th><th>Value</th><th>How computed</th></tr></thead><tbody>${rows
    .map((row) => `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join('')}</tr>`)
    .join('')}</tbody></table>`;
}

const assumptions = ({ assumed, load }: BuildParts): readonly string[] => [
  'Legs are straight lines between joint centres without friction or weight of their own.',
  'Plates and brackets are rigid.',
  assumed.payload
    ? '1 kg at the tool point stands in for the payload, because the design states none.'
    : `Payload of ${shown(load.payload.mass, 3)} kg as the design states it.`,
  assumed.plates
    ? 'Plates are closed discs that reach one barrel past the joints, because the design states none.'
    : 'Plates as the design states them.',
];

function tableHtml({ title, columns, rows }: Table): string {
  const cell = (value: Cell) =>
    typeof value === 'number'
      ? `<td class="number">${Number.isInteger(value) ? shown(value, 0) : shown(value, 3)}</td>`
      : `<td>${escaped(value ?? '')}</td>`;
  const head = columns.map(
    (column) => `<th>${escaped(column.replace(/_(mm|deg)$/, ', $1').replaceAll('_', ' '))}</th>`,
  );
  const body = rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`);
  return `<h3>${escaped(title)}</h3><table><thead><tr>${head.join('')}</tr></thead><tbody>${body.join('')}</tbody></table>`;
}

/** A sheet's SVG inside of a page: without its XML head and of the page's width; its style rules are the page's. */
const inlineSvg = (svg: string): string =>
  svg
    .replace(/^<\?xml[^>]*\?>\s*/, '')
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/ width="[^"]*mm" height="[^"]*mm"/, '');

const CAUTIONS = [
  'Pinch points: legs, plates and joints close on fingers, also when only the weight of the platform moves them.',
  'Power loss: a leg that can be driven backwards drops its load. Support the platform before you switch off or reach in.',
  'Hard stops and homing: give each leg an end switch and an order of homing; try it slowly, without load.',
  'Emergency stop and guards: keep people out of the volume that the platform and its load can reach.',
  'Buckling: a long thin rod under pressure gives way sideways, without warning.',
  'People: nothing here makes a platform fit to carry people.',
];

const STYLE = `
@page { margin: 16mm }
body { font: 10.5pt/1.4 "Public Sans", system-ui, sans-serif; color: #111; max-width: 190mm; margin: 0 auto; padding: 8mm }
h1 { margin: 0; font-size: 20pt } h2 { margin: 7mm 0 2mm; font-size: 13pt; border-bottom: 0.5pt solid #111 } h3 { margin: 4mm 0 1mm; font-size: 10.5pt }
table { width: 100%; border-collapse: collapse; font-size: 8.5pt; font-variant-numeric: tabular-nums } th, td { padding: 0.8mm 1.5mm; border-bottom: 0.25pt solid #999; text-align: left; vertical-align: top }
td.number { text-align: right } tr, figure { break-inside: avoid } h2, h3 { break-after: avoid }
.warn { border-left: 2pt solid #8a4300; padding: 2mm 2mm 2mm 8mm; background: #fbe6cf } .note { color: #444 }
figure { margin: 3mm 0 } .drawing svg { width: 100%; height: auto; border: 0.25pt solid #999 } figcaption { font-size: 8.5pt }
svg path, svg circle { fill: none; stroke: #000; stroke-linejoin: round } svg path.filled { fill: #000; stroke: none }
svg .seen { stroke-width: 0.5 } svg .narrow { stroke-width: 0.25 } svg .hidden { stroke-width: 0.25; stroke-dasharray: 3 0.75 } svg .centre { stroke-width: 0.25; stroke-dasharray: 6 0.75 0.3 0.75 }
@media print { body { padding: 0; max-width: none } }
`;
