import { useState } from 'react';
import { sweepSize } from '../../document/sweep-file.ts';
import { Button } from '../../ui/Button.tsx';
import { aboutTime, bytesWords, countText } from '../../words/amounts.ts';
import { useDesign } from '../design-binding.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import styles from './place.module.css';
import { SweepProgress } from './SweepProgress.tsx';

/** Sweeps with more layouts than this are started only when asked twice, and those above the second not at all on screen. */
const ASK_ABOVE = 2_000_000;
const REFUSE_ABOVE = 10_000_000;

/** Memory of one layout: twelve figures, its place in the order, and its marks. */
const BYTES_A_LAYOUT = 12 * 8 + 4 * 3 + 2;

/** How many layouts there will be, how long they take, and the buttons to start, pause and end. */
export function SweepControl({ ready }: { readonly ready: boolean }) {
  const desk = useExploreDesk();
  const [asked, setAsked] = useState(false);
  const setup = useExplore((state) => state.setup);
  const pace = useExplore((state) => state.pace);
  const run = useExplore((state) => state.run);
  const stale = useExplore((state) => state.stale);
  const { min_mm, max_mm } = useDesign((design) => design.legs);
  const layouts = sweepSize(setup);
  const time = pace === null ? null : aboutTime((pace * layouts) / desk.workers);
  const same = run !== null && !stale && JSON.stringify(run.sweep) === JSON.stringify(setup);
  const tooMany = layouts > REFUSE_ABOVE;
  const spare = 2 * min_mm - setup.deadLength_mm - max_mm;
  const start = () => {
    // stays where it is, with the focus, until Pause takes its place
    if (run?.status === 'loading') return;
    if (layouts > ASK_ABOVE && !asked) {
      setAsked(true);
      return;
    }
    setAsked(false);
    desk.startSweep();
  };
  const busy = run?.status === 'running' || run?.status === 'loading';
  return (
    <div className={styles['control']}>
      <p className={styles['forecast']}>
        <strong>{countText(layouts)} layouts</strong>
        {time === null || (same && run.status === 'done')
          ? ''
          : `, ${time} on ${desk.workers} ${desk.workers === 1 ? 'worker' : 'workers'}`}
      </p>
      <p className={styles['hint']} data-warning={spare < 0}>
        {spare < 0
          ? `▲ No such leg: its longest is ${-spare} mm more than twice its shortest less the dead length.`
          : `The leg can be built: ${spare} mm to spare below twice its shortest less the dead length.`}
      </p>
      {tooMany ? (
        <p className={styles['fault']} role="alert">
          ▲ {countText(layouts)} layouts would take {time ?? 'far too long'} here and{' '}
          {bytesWords(layouts * BYTES_A_LAYOUT)} of memory; the limit is {countText(REFUSE_ABOVE)}. Take fewer values,
          or run the sweep in shards from the command line.
        </p>
      ) : null}
      {asked && !tooMany && !busy ? (
        <div className={styles['question']} role="alert">
          <p>
            {countText(layouts)} layouts take {time ?? 'a long time'} and {bytesWords(layouts * BYTES_A_LAYOUT)} of
            memory.
          </p>
          <div className={controls['buttons']}>
            <Button look="filled" onClick={start}>
              Start anyway
            </Button>
            <Button onClick={() => setAsked(false)}>Back</Button>
          </div>
        </div>
      ) : same && run.status !== 'loading' ? null : (
        <Button
          look="filled"
          disabled={!ready || tooMany || run?.status === 'running'}
          aria-disabled={run?.status === 'loading'}
          onClick={start}
        >
          {stale ? 'Sweep the present design' : 'Start the sweep'}
        </Button>
      )}
      <SweepProgress />
    </div>
  );
}
