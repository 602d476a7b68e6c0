import { useStore } from 'zustand';
import { reachFromHome } from '../../reach/columns/reach-measure.ts';
import type { HelpReport } from '../../reach/what-helps.ts';
import { sessionStore } from '../../state/stores.ts';
import { useReach } from '../reach-binding.ts';
import { useUsable } from '../usable-binding.ts';

/**
 * A report with the volumes of the present design as the verdict strip shows them: the table measures every changed design with
 * fewer columns, and two figures for one reach on one screen would raise doubts. Its effects stay as they were found.
 */
export function useStripFigures(report: HelpReport | null, stale: boolean): HelpReport | null {
  const reach = useReach();
  const usable = useUsable();
  const home = useStore(sessionStore, (state) => state.reachOrientation === 'home' || state.pose === null);
  if (report === null || stale || !home) return report;
  const finer = {
    reach: reach.stale || !reach.value ? null : reachFromHome(reach.value),
    usable: usable.stale || !usable.value ? null : usable.value.usable,
  };
  return withFiner(report, finer);
}

/** Takes the finer measures where there are any; nothing that was not asked for is added. */
export const withFiner = (
  report: HelpReport,
  { reach, usable }: { readonly reach: number | null; readonly usable: number | null },
): HelpReport => ({
  ...report,
  reach: reach ?? report.reach,
  usable: report.usable === null ? null : (usable ?? report.usable),
});
