import type { DesignDocument } from '../../document/design.ts';
import type { DesignFault } from '../../document/faults.ts';
import { type SweepDocument, sweepAxes, sweepOptions } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { type Sweep, sweepRows } from '../../explore/sweep.ts';
import { neverStop } from '../../math/long-work.ts';
import { ok, type Result } from '../../math/result.ts';
import { type TableKind, type TableSpan, tableLines } from './table.ts';

/** A sweep about a design; refused where {@link sweptDesign} refuses the design. */
export function sweepAbout(document: DesignDocument, sweep: SweepDocument): Result<Sweep, readonly DesignFault[]> {
  const design = sweptDesign(document);
  return design.ok ? ok({ design: design.value, grid: sweepAxes(sweep), options: sweepOptions(sweep) }) : design;
}

/** The table lines of one span of a sweep that {@link sweepAbout} has accepted. */
export function sweepText(
  { document, sweep, kind }: { document: DesignDocument; sweep: SweepDocument; kind: TableKind },
  { from, to }: TableSpan,
): string {
  const about = sweepAbout(document, sweep);
  if (!about.ok) throw new Error('a refused sweep was started');
  const indices = Uint32Array.from({ length: to - from }, (_, n) => from + n);
  return tableLines(kind, sweep, from, sweepRows(about.value, indices, neverStop));
}
