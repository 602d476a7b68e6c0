import type { Exporter } from './exporter.ts';
import { dxf, svg } from './sheet/drawings.ts';
import { pdf } from './sheet/pdf.ts';
import { stl, threeMf } from './solids/meshes.ts';
import { step } from './solids/step.ts';
import { csv } from './tables/csv-files.ts';

/** Everything that leaves the program, in the workshop's order: menu, command line, tests and guide read this table. */
export const EXPORTERS = { dxf, pdf, svg, step, stl, '3mf': threeMf, csv } as const satisfies Readonly<
  Record<string, Exporter>
>;

export type ExporterId = keyof typeof EXPORTERS;
