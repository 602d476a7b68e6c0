import { useEffect } from 'react';
import { useStore } from 'zustand';
import type { HelpReport } from '../../reach/what-helps.ts';
import { layoutKey } from '../../state/design/layout-key.ts';
import { type HelpsState, STEP_SIZES } from '../../state/judge/helps-desk.ts';
import { helpsDesk } from '../../state/judge/judging.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { useDesign } from '../design-binding.ts';
import { HelpsHow } from './HelpsHow.tsx';
import { HelpsTable } from './HelpsTable.tsx';
import styles from './helps.module.css';
import { OBJECTIVE_OPTIONS, OBJECTIVE_WORDS, objectiveText } from './helps-words.ts';
import { useStripFigures } from './strip-figures.ts';

const SIZE_OPTIONS = STEP_SIZES.map((size) => [String(size), String(size)] as const);

/** What one more millimetre or degree of each dimension would do. */
export function HelpsPanel() {
  useEffect(() => helpsDesk.watch(), []);
  const objective = useStore(helpsDesk.store, (state) => state.objective);
  const size = useStore(helpsDesk.store, (state) => state.size);
  const finished = useStore(helpsDesk.store, (state) => state.finished);
  const stale = useDesign((document) => finished !== null && layoutKey(finished.document) !== layoutKey(document));
  const report = useStripFigures(finished?.report ?? null, stale);
  const lacksUsable = objective === 'usable' && finished?.report.usable === null;
  return (
    <div className={styles['panel']}>
      <div className={styles['head']}>
        <Choice
          name="What there should be more of, or less"
          label="Effect on"
          value={objective}
          options={OBJECTIVE_OPTIONS}
          onChoose={(chosen) => helpsDesk.setObjective(chosen)}
        />
        <Choice
          name="Size of a step, millimetres or degrees"
          label="Step"
          value={String(size)}
          options={SIZE_OPTIONS}
          onChoose={(chosen) => {
            const wanted = STEP_SIZES.find((own) => String(own) === chosen);
            if (wanted !== undefined) helpsDesk.setSize(wanted);
          }}
        />
        <State stale={stale} report={report} />
        {finished && !lacksUsable ? <HelpsHow report={report ?? finished.report} document={finished.document} /> : null}
      </div>
      {finished && !lacksUsable ? (
        <div data-stale={stale} className={styles['body']}>
          <HelpsTable report={finished.report} objective={objective} stale={stale} />
        </div>
      ) : null}
    </div>
  );
}

/** What is shown, or how far its computing is. */
function State({ stale, report }: { readonly stale: boolean; readonly report: HelpReport | null }) {
  const state = useStore(helpsDesk.store);
  const { status, share } = state;
  return (
    <div className={styles['state']}>
      <p role="status">{stateWords(state, stale, report)}</p>
      {status === 'running' ? (
        <>
          <progress aria-label="Dimensions done" max={1} value={share} />
          <Button onClick={() => helpsDesk.cancel()}>Cancel</Button>
        </>
      ) : null}
      {status === 'cancelled' || status === 'failed' ? (
        <Button onClick={() => helpsDesk.again()}>Compute again</Button>
      ) : null}
    </div>
  );
}

function stateWords(
  { status, share, failure, objective }: HelpsState,
  stale: boolean,
  report: HelpReport | null,
): string {
  switch (status) {
    case 'running':
      return `${stale ? 'Former design; computing' : 'Computing'}… ${Math.floor(share * 100)} %`;
    case 'cancelled':
      return stale ? '▲ Cancelled; of the former design' : 'Cancelled';
    case 'failed':
      return `▲ ${failure ?? 'The calculation failed.'}`;
    case 'idle':
      return report ? presentWords(report, objective) : '';
  }
}

function presentWords(report: HelpReport, objective: HelpsState['objective']): string {
  const value = report[objective];
  return value === null
    ? `No ${OBJECTIVE_WORDS[objective]}: home is singular`
    : `Now ${objectiveText(objective, value)}`;
}
