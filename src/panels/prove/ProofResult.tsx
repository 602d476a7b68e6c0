import { useStore } from 'zustand';
import type { PoseAngles } from '../../kinematics/pose.ts';
import type { BoxDecision, ProofAnswer } from '../../reach/prove/prove.ts';
import type { Question } from '../../reach/prove/prove-claims.ts';
import { layoutKey } from '../../state/design/layout-key.ts';
import { proveDesk } from '../../state/judge/judging.ts';
import type { ProofRun } from '../../state/judge/prove-desk.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { refutationWords } from '../../words/refutation.ts';
import { useDesign } from '../design-binding.ts';
import { ProofHow } from './ProofHow.tsx';
import { answerMark, CLAIM_TITLES, poseWords, progressWords, shareText } from './proof-words.ts';
import styles from './prove.module.css';

/** How far the proof is, and its answers. */
export function ProofResult() {
  const run = useStore(proveDesk.store, (state) => state.run);
  if (!run) return null;
  return (
    <div className={styles['result']}>
      {run.status === 'running' ? <progress aria-label="Share of the box settled" max={1} value={run.share} /> : null}
      <div className={styles['state']}>
        <p role="status">{progressWords(run)}</p>
        {run.decision ? <ProofHow run={run} decision={run.decision} /> : null}
      </div>
      {run.failure === null ? null : <p className={styles['alarm']}>▲ {run.failure}</p>}
      <Stale run={run} />
      {run.decision?.answers.map(({ question, answer }) => (
        <Answer key={question} question={question} answer={answer} run={run} decision={run.decision} />
      ))}
    </div>
  );
}

function Stale({ run }: { readonly run: ProofRun }) {
  const key = useDesign(layoutKey);
  const setup = useStore(proveDesk.store, (state) => state.setup);
  if (layoutKey(run.subject.document) !== key)
    return (
      <p className={styles['alarm']} role="status">
        ▲ The design has changed since; this is of the one before.
      </p>
    );
  return setup === run.subject.setup || run.status === 'running' ? null : (
    <p className={styles['note']}>The numbers above have changed since; press Prove again.</p>
  );
}

interface AnswerProps {
  readonly question: Question;
  readonly answer: ProofAnswer;
  readonly run: ProofRun;
  readonly decision: BoxDecision | null;
}

function Answer({ question, answer, run, decision }: AnswerProps) {
  return (
    <div className={styles['answer']} data-answer={answer.answer}>
      <h3>
        {CLAIM_TITLES[question]} <b>{answerMark(answer)}</b>
      </h3>
      <AnswerWords question={question} answer={answer} run={run} decision={decision} />
    </div>
  );
}

function AnswerWords({ question, answer, run, decision }: AnswerProps) {
  const { setup } = run.subject;
  switch (answer.answer) {
    case 'proven':
      return <p>{PROVEN_WORDS[question](setup.keep_mm)}</p>;
    case 'refuted':
      return (
        <>
          <p>
            Not at {poseWords(answer.pose)}: {refutationWords(answer.reason)}.
          </p>
          <GoButton pose={answer.pose} words="Go to this pose" />
        </>
      );
    case 'undecided':
      return (
        <>
          <p>
            Open in {shareText(answer.share)} of the box, for instance near {poseWords(answer.near)}.{' '}
            {decision?.cutShort
              ? `The ${run.subject.boxes} parts that this depth allows ran out`
              : `The bounds were too wide after ${setup.depth} halvings`}
            : raise the depth, which takes longer, or make the box smaller.
          </p>
          <GoButton pose={answer.near} words="Go to the pose in doubt" />
        </>
      );
  }
}

const PROVEN_WORDS: Readonly<Record<Question, (keep: number) => string>> = {
  reachable: () => 'Every leg keeps its length and every joint its tilt at every pose of the box.',
  regular: () => 'The six legs stay independent at every pose of the box; det J keeps its sign.',
  clear: (keep) =>
    keep > 0
      ? `Every two bodies stay at least ${keep} mm apart at every pose of the box.`
      : 'No two bodies meet at any pose of the box.',
};

const GoButton = ({ pose, words }: { readonly pose: PoseAngles; readonly words: string }) => (
  <Button onClick={() => sessionStore.setState({ pose })}>{words}</Button>
);
