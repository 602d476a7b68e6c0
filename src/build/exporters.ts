import { zipOf } from './bundle/zip.ts';
import type { Exporter } from './exporter.ts';
import { mjcf } from './models/mjcf.ts';
import { sdf } from './models/sdf.ts';
import { paper } from './paper/paper.ts';
import { report } from './report/report.ts';
import { dxf, svg } from './sheet/drawings.ts';
import { pdf } from './sheet/pdf.ts';
import { stl, threeMf } from './solids/meshes.ts';
import { step } from './solids/step.ts';
import { csv } from './tables/csv-files.ts';

const FORMATS = { dxf, pdf, svg, step, stl, '3mf': threeMf, csv, mjcf, sdf, paper, report } as const satisfies Readonly<
  Record<string, Exporter>
>;

/** Everything that leaves the program, in the workshop's order: menu, command line, tests and guide read this table. */
export const EXPORTERS = { ...FORMATS, zip: zipOf(Object.values(FORMATS)) } as const satisfies Readonly<
  Record<string, Exporter>
>;

export type ExporterId = keyof typeof EXPORTERS;
