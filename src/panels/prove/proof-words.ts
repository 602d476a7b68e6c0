import type { PoseAngles } from '../../kinematics/pose.ts';
import { poseNumbers } from '../../reach/pose-box.ts';
import type { BoxDecision, ProofAnswer } from '../../reach/prove/prove.ts';
import type { Question } from '../../reach/prove/prove-claims.ts';
import type { ProofRun } from '../../state/judge/prove-desk.ts';
import { degrees } from '../../terms/units.ts';
import { timeWords } from '../../words/amounts.ts';
import { fixedText, groupedText, three } from '../../words/numbers.ts';

export const QUESTION_WORDS: Readonly<Record<Question, string>> = {
  reachable: 'reachable',
  regular: 'free of singular poses',
  clear: 'clear, no bodies meet',
};

/** A claim as the head of its answer. */
export const CLAIM_TITLES: Readonly<Record<Question, string>> = {
  reachable: 'Reachable',
  regular: 'Free of singular poses',
  clear: 'Clear',
};

const MARKS = { proven: '✓', refuted: '✗', undecided: '?' } as const;

export const answerMark = ({ answer }: ProofAnswer): string => `${MARKS[answer]} ${answer}`;

/** One word for all answers: proven only if every one is. */
export function overallWord({ answers }: BoxDecision): ProofAnswer['answer'] {
  if (answers.some(({ answer }) => answer.answer === 'refuted')) return 'refuted';
  return answers.every(({ answer }) => answer.answer === 'proven') ? 'proven' : 'undecided';
}

/** "x 10.0, y 0.0, z 150.0 mm, roll 0.0, pitch 5.0, yaw 0.0 deg". */
export function poseWords(pose: PoseAngles): string {
  const text = Array.from(poseNumbers(pose), (value, index) => fixedText(index < 3 ? value : degrees(value), 2));
  const [x, y, z, roll, pitch, yaw] = text;
  return `x ${x}, y ${y}, z ${z} mm, roll ${roll}, pitch ${pitch}, yaw ${yaw} deg`;
}

/** A share of the box in percent, never shown as nothing. */
export const shareText = (share: number): string => `${three(Math.max(100 * share, 1e-6))} %`;

/** How far a proof came and how long it took. */
export function progressWords({ status, share, time, decision }: ProofRun): string {
  const seconds = time / 1000;
  const settled = `${Math.floor(share * 100)} % of the box settled`;
  switch (status) {
    case 'running': {
      const left = share > 0.01 && share < 1 ? `, ${timeWords((seconds * (1 - share)) / share)} left` : '';
      return `${settled}${left}`;
    }
    case 'cancelled':
      return `Cancelled after ${timeWords(seconds)} with ${settled}; nothing is proven.`;
    case 'failed':
      return 'The proof could not be made.';
    case 'done':
      return `Decided in ${seconds < 10 ? `${three(seconds)} s` : timeWords(seconds)}, ${groupedText(decision?.boxes ?? 0, 0)} parts looked at.`;
  }
}
