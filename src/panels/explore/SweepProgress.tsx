import type { SweepRun } from '../../state/explore/explore-store.ts';
import { Button } from '../../ui/Button.tsx';
import { countText, timeWords } from '../../words/amounts.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import styles from './place.module.css';

/** How far the sweep on screen is, with what can be done about it. */
export function SweepProgress() {
  const { runner } = useExploreDesk();
  const run = useExplore((state) => state.run);
  const stale = useExplore((state) => state.stale);
  const older = useExplore((state) => state.drawn < (state.run?.known ?? 0));
  if (!run) return null;
  const { known, layouts, status, kept } = run;
  return (
    <div className={styles['progress']} data-status={status}>
      <progress aria-label="Layouts measured" max={layouts} value={known} />
      <p role="status" tabIndex={-1} data-holds-focus className={styles['state']}>
        {stateWords(run, older)}
      </p>
      <div className={controls['buttons']}>
        {status === 'running' ? (
          <>
            <Button onClick={() => runner.pause()}>Pause</Button>
            <Button onClick={() => runner.cancel()}>Cancel</Button>
          </>
        ) : null}
        {status === 'paused' || status === 'partial' || status === 'failed' ? (
          <Button look="filled" onClick={() => runner.resume()}>
            {status === 'paused' ? 'Resume' : 'Go on'}
          </Button>
        ) : null}
      </div>
      {kept === 'memory' ? <p className={styles['fault']}>▲ Not kept: these results end with the page.</p> : null}
      {stale ? (
        <p className={styles['fault']} role="status">
          ▲ The design has changed since; these figures are of the one before.
        </p>
      ) : null}
    </div>
  );
}

/** @param older the pictures show an earlier state than is known */
function stateWords(run: SweepRun, older: boolean): string {
  const { status, known, layouts, secondsLeft, seconds, measured, failure } = run;
  const counts = `${countText(known)} of ${countText(layouts)}`;
  switch (status) {
    case 'loading':
      return `Reading what is known: ${counts}.`;
    case 'running':
      return `${counts} measured${secondsLeft === null ? '' : `, ${timeWords(secondsLeft)} left`}.`;
    case 'paused':
      return `Paused at ${counts}.`;
    case 'partial':
      return `Partial: cancelled at ${counts}.`;
    case 'failed':
      return `Stopped at ${counts}: ${failure ?? 'the workers failed'}`;
    case 'done':
      if (older) return `All ${countText(layouts)} layouts are measured; the last pictures are being drawn.`;
      return measured > 0
        ? `All ${countText(layouts)} layouts are known; ${countText(measured)} measured in ${timeWords(seconds)}.`
        : `All ${countText(layouts)} layouts are known.`;
  }
}
