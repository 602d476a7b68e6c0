import type { DesignDocument } from '../../document/design.ts';
import type { DesignFault } from '../../document/faults.ts';
import { fault } from '../../document/faults.ts';
import { type SweepDocument, sweepAxes, sweepOptions } from '../../document/sweep-file.ts';
import { mechanismFromDocument } from '../../document/units.ts';
import { type Sweep, sweepRows } from '../../explore/sweep.ts';
import { isRingSpec, withoutHoles } from '../../kinematics/dimensions.ts';
import { neverStop } from '../../math/long-work.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { type TableKind, type TableSpan, tableLines } from './table.ts';

/** A sweep about a design; refused unless both plates are rings and the joint limits are ones a sweep can weigh. */
export function sweepAbout(document: DesignDocument, sweep: SweepDocument): Result<Sweep, readonly DesignFault[]> {
  const { spec } = mechanismFromDocument(document);
  if (!isRingSpec(spec)) {
    const remedy = 'Give both plates as rings, or look at this one design with pose and reach.';
    return failed([fault('contradiction', 'base and platform', 'not both rings', 'rings, to be swept', remedy)]);
  }
  const wide = (['base', 'platform'] as const).filter((plate) => {
    const limit = spec.joints[plate].tiltLimit;
    return limit >= Math.PI / 2 && limit < Math.PI;
  });
  if (wide.length > 0) {
    const remedy = 'Lower it below 90, or write 180 for a joint without limit.';
    return failed(
      wide.map((plate) =>
        fault(
          'contradiction',
          `joints.${plate}.tilt_deg`,
          String(document.joints[plate].tilt_deg),
          'below 90, or 180, to be swept',
          remedy,
        ),
      ),
    );
  }
  return ok({ design: withoutHoles(spec), grid: sweepAxes(sweep), options: sweepOptions(sweep) });
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
