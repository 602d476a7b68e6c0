import { figureOptions } from '../../document/build-inputs.ts';
import type { DesignDocument } from '../../document/design.ts';
import { builtRing } from '../../document/edits/built-ring.ts';
import type { SweepDocument } from '../../document/sweep-file.ts';
import { mechanismFromDocument } from '../../document/units.ts';
import { FIGURE_COUNT, LayoutFigures } from '../../explore/layout-figures.ts';
import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { figure, roundedText } from '../../words/numbers.ts';
import { columnWords } from './explore-columns.ts';

/** Figures that are told twice: of the layout as it was weighed, and with its joints in holes. */
const TOLD: readonly FigureName[] = ['reach', 'homeFirmness', 'buildGap'];

/** What becomes of a layout when its joints go to the nearest holes: gaps and figures, ideal and as drilled. */
export function drilledWords(ideal: DesignDocument, drilled: DesignDocument, sweep: SweepDocument): string {
  const figures = new LayoutFigures(figureOptions(drilled, sweep));
  const rows = [ideal, drilled].map((document) => {
    const row = new Float64Array(FIGURE_COUNT);
    figures.measure(mechanismFromDocument(document), row);
    return row;
  });
  const told = TOLD.map((name) => {
    const { inWords, unit, scale } = columnWords(name);
    const [one, other] = rows.map((row) => figure(row[FIGURE_NAMES.indexOf(name)] * scale));
    return `${inWords} ${one} and ${other}${unit === '' ? '' : ` ${unit}`}`;
  });
  return `Ideal and as drilled: ${[...gapWords(drilled), ...told].join('; ')}.`;
}

function gapWords({ base, platform }: DesignDocument): readonly string[] {
  return (
    [
      ['base', base],
      ['platform', platform],
    ] as const
  ).flatMap(([plate, layout]) => {
    if (!('ring' in layout)) return [];
    const asked = roundedText(layout.ring.gap_deg, 2);
    const built = roundedText(builtRing(layout.ring, plate).gap_deg, 2);
    return [`${plate} gap ${asked} and ${built} deg`];
  });
}
