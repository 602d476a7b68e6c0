import type { PlateName } from '../../kinematics/layout.ts';
import type { LongWork } from '../../math/long-work.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { type BuildFault, type BuildFile, CANCELLED, type Exporter } from '../exporter.ts';
import type { BuildParts } from '../parts.ts';
import { bundle } from './bundle.ts';

/** Files of several formats; what cannot be made is a sentence. */
export interface Written {
  readonly files: readonly BuildFile[];
  readonly left: readonly string[];
}

/** Writes several formats, one after the other; only being stopped ends it early. */
export async function writeAll(
  exporters: readonly Exporter[],
  parts: BuildParts,
  sides: readonly PlateName[],
  work: LongWork,
): Promise<Result<Written, BuildFault>> {
  const files: BuildFile[] = [];
  const left: string[] = [];
  for (const [n, exporter] of exporters.entries()) {
    if (work.shouldStop()) return failed(CANCELLED);
    const part: LongWork = {
      report: (done, total) => work.report(n + (total > 0 ? done / total : 0), exporters.length),
      shouldStop: () => work.shouldStop(),
    };
    const made = await exporter.write(parts, sides, part);
    if (made.ok) files.push(...made.value);
    else if (made.fault.kind === 'cancelled') return made;
    else left.push(`${exporter.words}: ${made.fault.message}`);
  }
  work.report(exporters.length, exporters.length);
  return ok({ files, left });
}

/** Everything that these exporters write, in one file. */
export const zipOf = (exporters: readonly Exporter[]): Exporter => ({
  words: 'All in one file',
  says: 'A zip of every format with the design, a README and a manifest of hashes.',
  purpose: 'file',
  ending: 'zip',
  async write(parts, sides, work) {
    const written = await writeAll(exporters, parts, sides, work);
    if (!written.ok) return written;
    const { files, left } = written.value;
    const one = bundle(parts, files);
    return ok([{ ...one, warnings: [...one.warnings, ...left] }]);
  },
});
