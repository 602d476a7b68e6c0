import { useEffect } from 'react';
import { useStore } from 'zustand';
import { PROOF_QUESTIONS } from '../../reach/prove/prove-claims.ts';
import { layoutKey } from '../../state/design/layout-key.ts';
import { proveDesk } from '../../state/judge/judging.ts';
import { pointedStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { useDesign } from '../design-binding.ts';
import { BoxDemands } from './BoxDemands.tsx';
import { DepthNumber, HalfRanges, KeepField } from './ProofNumbers.tsx';
import { ProofResult } from './ProofResult.tsx';
import { overallWord, QUESTION_WORDS } from './proof-words.ts';
import styles from './prove.module.css';
import { useProofBox } from './useProofBox.ts';

/** Decides for a whole box of poses whether the platform may go everywhere in it. */
export const ProvePanel = () => (
  <div className={styles['panel']}>
    <Group title="Prove a box" brief={<Brief />} startsFolded>
      <Setup />
      <ProofResult />
      <BoxDemands />
    </Group>
  </div>
);

function Brief() {
  const run = useStore(proveDesk.store, (state) => state.run);
  const key = useDesign(layoutKey);
  if (!run) return null;
  if (run.status === 'running') return <>{Math.floor(run.share * 100)} %</>;
  if (!run.decision) return null;
  const stale = layoutKey(run.subject.document) !== key;
  return (
    <>
      {overallWord(run.decision)}
      {stale ? ', former design' : ''}
    </>
  );
}

const AROUND = [
  ['home', 'Home'],
  ['present', 'Present pose'],
] as const;

function Setup() {
  const { around, asked } = useStore(proveDesk.store, (state) => state.setup);
  const running = useStore(proveDesk.store, ({ run }) => run?.status === 'running');
  useShownBox();
  return (
    <>
      <p className={styles['note']}>
        Bounds, not samples: “proven” holds at every pose of the box, also between any two that were looked at.
      </p>
      <Choice
        name="Pose in the middle of the box"
        label="Around"
        value={around}
        options={AROUND}
        onChoose={(chosen) => proveDesk.change({ around: chosen })}
      />
      <HalfRanges />
      <fieldset className={styles['claims']}>
        <legend>Every pose of the box is</legend>
        {PROOF_QUESTIONS.map((question) => (
          <label key={question}>
            <input
              type="checkbox"
              checked={asked.includes(question)}
              onChange={(event) =>
                proveDesk.change({
                  asked: PROOF_QUESTIONS.filter((own) =>
                    own === question ? event.target.checked : asked.includes(own),
                  ),
                })
              }
            />
            {QUESTION_WORDS[question]}
          </label>
        ))}
      </fieldset>
      {asked.includes('clear') ? <KeepField /> : null}
      <DepthNumber />
      <div className={styles['buttons']}>
        {running ? (
          <Button onClick={() => proveDesk.cancel()}>Cancel</Button>
        ) : (
          <Button look="filled" disabled={asked.length === 0} onClick={() => void proveDesk.start()}>
            Prove
          </Button>
        )}
      </div>
    </>
  );
}

/** Draws the box's positions while its numbers are on screen. */
function useShownBox(): void {
  const box = useProofBox();
  useEffect(() => pointedStore.setState({ box }), [box]);
  useEffect(() => () => pointedStore.setState({ box: null }), []);
}
