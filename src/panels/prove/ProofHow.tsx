import { poseNumbers } from '../../reach/pose-box.ts';
import type { BoxDecision } from '../../reach/prove/prove.ts';
import type { ProofRun } from '../../state/judge/prove-desk.ts';
import { degrees } from '../../terms/units.ts';
import { How } from '../../ui/How.tsx';
import { groupedText, listed } from '../../words/numbers.ts';
import { poseWords } from './proof-words.ts';

interface ProofHowProps {
  readonly run: ProofRun;
  readonly decision: BoxDecision;
}

/** How the answers were found, with the numbers of this proof. */
export function ProofHow({ run: { subject }, decision }: ProofHowProps) {
  const { box, setup } = subject;
  const half = poseNumbers(box.half);
  return (
    <How name="How the proof was made">
      <p>
        The box: {listed(half.subarray(0, 3))} mm and {listed(Array.from(half.subarray(3), degrees))} deg either way of{' '}
        {poseWords(box.centre)}, all six numbers independent.
      </p>
      <p>
        Each claim is a number that must not fall below zero: room of every leg to both lengths, of every joint to its
        limit, of every pair of bodies to {setup.keep_mm} mm. Over a box it is at least its value in the middle less Σ
        hᵢ max |∂/∂xᵢ|, the derivatives enclosed by interval arithmetic over the whole box, rounding included. Free of
        singular poses: a weighted norm of J₀⁻¹ J − I stays below 1, J₀ being J in the middle, so det J cannot vanish.
      </p>
      <p>
        Where a bound is too wide the box is halved along the number that blurs it most, at most {setup.depth} times:{' '}
        {groupedText(decision.boxes, 0)} parts were looked at, halved up to {decision.depth} times
        {decision.cutShort ? `; the ${groupedText(subject.boxes, 0)} parts allowed ran out` : ''}. To refute, all 64
        corners and the way downhill from them are searched; a pose that is shown was computed exactly.
      </p>
      <p>
        First-order parts only: legs, joints and plates as the design states them, without their tolerances and give.
      </p>
    </How>
  );
}
