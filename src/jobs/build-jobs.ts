import { bundle, warningsOf } from '../build/bundle/bundle.ts';
import { writeAll } from '../build/bundle/zip.ts';
import type { BuildFile } from '../build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../build/exporters.ts';
import { type BuildDesign, type BuildOrder, partsOf, SIDES } from '../build/parts.ts';
import { plateSheets } from '../build/sheet/drawings.ts';
import { sheetSvg } from '../build/sheet/svg.ts';
import type { Table } from '../build/tables/csv.ts';
import { tablesOf } from '../build/tables/tables.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { LongWork } from '../math/long-work.ts';

/** A design and what the builder adds. Plain data: it crosses to the worker as it is. */
export interface BuildQuestion {
  readonly design: BuildDesign;
  readonly order: BuildOrder;
}

/** One sheet as it will be saved. */
export interface ShownSheet {
  readonly title: string;
  readonly svg: string;
  /** [mm] */
  readonly width: number;
  readonly height: number;
  readonly warnings: readonly string[];
}

/** What the place Build shows before anything is saved. */
export interface BuildPreview {
  readonly sheets: readonly ShownSheet[];
  readonly tables: readonly Table[];
}

export function previewJob({ design, order }: BuildQuestion): BuildPreview {
  const parts = partsOf(design, order);
  const sheets = SIDES.flatMap((side) =>
    plateSheets(parts, side).map(
      ({ sheet }): ShownSheet => ({
        title: sheet.title,
        svg: sheetSvg(sheet),
        width: sheet.width,
        height: sheet.height,
        warnings: sheet.warnings,
      }),
    ),
  );
  return { sheets, tables: tablesOf(parts, SIDES) };
}

/** What is to be saved. */
export interface SaveQuestion extends BuildQuestion {
  readonly what: readonly ExporterId[];
  readonly sides: readonly PlateName[];
}

/** One file to be saved, and what is odd about what is in it. */
export interface SavedBuild {
  readonly file: BuildFile;
  readonly warnings: readonly string[];
}

/** Writes what is ticked: one file as it is, several as one zip with the design, a README and hashes. */
export async function saveJob({ design, order, what, sides }: SaveQuestion, work: LongWork): Promise<SavedBuild> {
  const parts = partsOf(design, order);
  const written = await writeAll(
    what.map((id) => EXPORTERS[id]),
    parts,
    sides,
    work,
  );
  if (!written.ok) throw new Error(written.fault.message);
  const { files, left } = written.value;
  if (files.length === 0) throw new Error(left.join(' '));
  const file = files.length === 1 ? files[0] : bundle(parts, files);
  return { file, warnings: [...new Set([...warningsOf(parts, files), ...left])] };
}
