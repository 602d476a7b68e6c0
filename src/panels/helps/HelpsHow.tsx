import type { DesignDocument } from '../../document/design.ts';
import { ANGLE_STEP, type HelpReport, LENGTH_STEP, USABLE_ERROR, VOLUME_ERROR } from '../../reach/what-helps.ts';
import { floorsOf } from '../../state/design/judging-inputs.ts';
import { degrees } from '../../terms/units.ts';
import { How } from '../../ui/How.tsx';
import { bothEffectsText, dimensionText, objectiveText } from './helps-words.ts';

interface HelpsHowProps {
  readonly report: HelpReport;
  readonly document: DesignDocument;
}

/** How the table came about, with its own numbers. */
export function HelpsHow({ report, document }: HelpsHowProps) {
  const floors = floorsOf(document).length;
  return (
    <How name="How the table is computed">
      <p>
        (F(d + h) − F(d)) / h for one more of a dimension d and (F(d − h) − F(d)) / h for one less, the others kept: h
        is {100 * LENGTH_STEP} % of a length, {ANGLE_STEP} rad ({degrees(ANGLE_STEP).toPrecision(3)} deg) of an angle.
        Mounts that are aimed follow; joints in holes move as if holes were everywhere. Bars compare one millimetre with
        one degree; ± is what the errors of the volumes leave open. The two ways differ where a limit starts to bind
        just here.
      </p>
      <p>
        Reach: the volume at home orientation that is connected to home, {objectiveText('reach', report.reach)}, each
        volume to {100 * VOLUME_ERROR} %.{' '}
        {report.usable === null
          ? ''
          : `Usable: of that what keeps ${floors} floors and crosses no singular pose, ${objectiveText('usable', report.usable)}, each volume to ${100 * USABLE_ERROR} %. `}
        {report.toolError === null
          ? 'Worst error: home is too near to a singular pose for a figure of the first order.'
          : `Worst error at home: the largest |J⁻¹ δ| over all signs of δ, ${objectiveText('toolError', report.toolError)}.`}
      </p>
      <ul>
        {report.helps.map((help) => (
          <li key={help.dimension.name}>
            {help.dimension.words}, now {dimensionText(help)}: reach {bothEffectsText(help, 'reach')}, worst error{' '}
            {bothEffectsText(help, 'toolError')}
            {help.usable === null ? '' : `, usable ${bothEffectsText(help, 'usable')}`}
          </li>
        ))}
      </ul>
    </How>
  );
}
