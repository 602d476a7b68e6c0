import { compiledDesign } from '../../document/compiled.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import type { PoseCurve } from '../../reach/field/curves.ts';
import { poseNumbers } from '../../reach/pose-box.ts';
import { floorsOf } from '../../state/design/judging-inputs.ts';
import type { CurvesSubject } from '../../state/judge/curves-desk.ts';
import { boundWords, QUANTITIES } from '../../terms/quantities.ts';
import { How } from '../../ui/How.tsx';
import { numberText, numberUnit, usableWords, valueText } from './curve-words.ts';

interface CurvesHowProps {
  readonly subject: CurvesSubject;
  readonly curves: readonly PoseCurve[];
}

/** How curves, walls and usable ranges come about, with the present numbers. */
export function CurvesHow({ subject: { document, pose }, curves }: CurvesHowProps) {
  const numbers = poseNumbers(pose);
  const { mechanism } = compiledDesign(document);
  const floors = floorsOf(document);
  return (
    <How name="How the curves are computed">
      <p>
        One number of the pose is varied, the other five stay at the present pose:{' '}
        {FREEDOMS.map((name, index) => `${name} ${numberText(numbers[index], index)} ${numberUnit(index)}`).join(', ')}.
        Each curve has {curves[0].at.length} samples; at each, J has the rows [uᵢ, (R bᵢ) × uᵢ] and the quantities are
        computed as in the groups Accuracy, Load and forces, Stiffness and Clearance. The condition is σ₁ / σ₆ with
        turns counted at L = {mechanism.characteristicLength.toFixed(1)} mm.
      </p>
      <p>
        Walls are where a leg or joint meets its limit or det J changes its sign, bisected between two samples to
        rounding. Two walls of one kind between neighbouring samples can be missed together.
      </p>
      <p>
        Usable: the stretch around the present pose in which all 24 limits of the legs hold, no singular pose is crossed
        {floors.length > 0 ? ' and every floor is kept' : '; the design sets no floors'}.
      </p>
      {floors.length > 0 ? (
        <ul>
          {floors.map(({ quantity, value }) => (
            <li key={quantity}>
              {QUANTITIES[quantity].words} {boundWords(quantity)} {valueText(quantity, value)}
            </li>
          ))}
        </ul>
      ) : null}
      <ul>
        {curves.map((curve, index) => (
          <li key={FREEDOMS[index]}>{usableWords(curve, index)}</li>
        ))}
      </ul>
    </How>
  );
}
