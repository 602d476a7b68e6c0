import { useEffect } from 'react';
import { countThreefoldChoices } from '../../explore/hole-choices.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { holeDesign } from '../../state/explore/hole-edits.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import { aboutTime, countText } from '../../words/amounts.ts';
import { useDesign } from '../design-binding.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk, useHoles } from './desk-context.ts';
import { HoleSearchControl } from './HoleSearchControl.tsx';
import { JointsHint } from './JointsHint.tsx';
import styles from './place.module.css';
import { nothing } from './sweep-fields.ts';

/** Lists longer than this are not started on screen. */
const MOST_CHOICES = 1_000_000;

/** Choosing holes on the two circles: what counts, the list, and the search for single joints. */
export function HolesSetup() {
  const desk = useExploreDesk();
  const pace = useExplore((state) => state.pace);
  const run = useHoles((state) => state.run);
  const document = useDesign((design) => design);
  const holes = holeDesign(document);
  useEffect(() => {
    void desk.holes.weighMoves(document).catch(nothing);
  }, [desk, document]);
  if (!holes) {
    return (
      <p className={styles['refusal']} role="status">
        Both plates need a circle of indexed holes: open Base and Platform in Shape, choose a ring, and give it holes.
      </p>
    );
  }
  const { base, platform } = holes.circles;
  const choices = countThreefoldChoices(base, platform);
  const threefold = base.count % 3 === 0 && platform.count % 3 === 0;
  const running = run?.status === 'running';
  return (
    <>
      <p className={styles['hint']}>Tilt range, firmness floor and dead length are those set under Sweep.</p>
      <JointsHint />
      <Weights />
      <Group title="Every three-fold choice">
        <p className={styles['hint']}>
          {threefold
            ? `${base.count} and ${platform.count} holes give ${countText(choices)} choices that repeat every third of a turn; turned and mirrored twins are listed once.`
            : 'A three-fold choice needs numbers of holes that three divides.'}
        </p>
        <div className={controls['buttons']}>
          {running ? (
            <Button onClick={() => desk.holes.cancelList()}>Cancel</Button>
          ) : (
            <Button
              look="filled"
              disabled={choices === 0 || choices > MOST_CHOICES}
              onClick={() => void desk.holes.list()}
            >
              List them all
            </Button>
          )}
          {pace !== null && choices > 0 ? (
            <span className={controls['count']}>{aboutTime((choices * pace) / desk.workers)}</span>
          ) : null}
        </div>
        {choices > MOST_CHOICES ? (
          <p className={styles['fault']}>▲ More than {countText(MOST_CHOICES)}; take coarser circles.</p>
        ) : null}
        {run ? (
          <>
            <progress aria-label="Choices measured" max={run.choices} value={run.known} />
            <p className={styles['state']} role="status">
              {countText(run.known)} of {countText(run.choices)} measured
              {run.status === 'cancelled' ? ', cancelled' : run.status === 'failed' ? `, stopped: ${run.failure}` : ''}.
            </p>
          </>
        ) : null}
      </Group>
      <HoleSearchControl />
    </>
  );
}

/** How much each figure counts. */
function Weights() {
  const { holesStore, holes } = useExploreDesk();
  const weights = useHoles((state) => state.weights);
  return (
    <Group title="What counts">
      {weights.map(({ figure, weight }, place) => (
        <PairedNumber
          key={figure}
          name={`Weight of ${columnWords(figure).inWords}`}
          label={columnWords(figure).short}
          value={weight}
          unit=""
          decimals={0}
          legal={WEIGHT}
          travel={WEIGHT_TRAVEL}
          preview={(value) => {
            holesStore.setState({
              weights: weights.map((old, n) => (n === place ? { ...old, weight: value } : old)),
            });
            holes.rank();
            return null;
          }}
          commit={nothing}
          restore={nothing}
        />
      ))}
    </Group>
  );
}

const WEIGHT = { min: 0, max: 100 };
const WEIGHT_TRAVEL = { min: 0, max: 10, step: 1 };
