import { useStore } from 'zustand';
import type { Help, HelpReport } from '../../reach/what-helps.ts';
import { helpfulSense, type Objective } from '../../state/judge/helps-desk.ts';
import { helpsDesk } from '../../state/judge/judging.ts';
import { notify } from '../../state/session/notices-store.ts';
import { noticesStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import styles from './helps.module.css';
import {
  barWords,
  bothEffectsText,
  dimensionText,
  effectText,
  onlyALimit,
  shownEffect,
  sideSlope,
  stepEffect,
  stepWords,
} from './helps-words.ts';

interface HelpsTableProps {
  readonly report: HelpReport;
  readonly objective: Objective;
  readonly stale: boolean;
}

/** Signed bars, the largest effect first; a chosen one shows its step as a ghost. */
export function HelpsTable({ report, objective, stale }: HelpsTableProps) {
  const size = (help: Help) => Math.abs(shownEffect(help, objective)?.effect ?? 0);
  const sorted = [...report.helps].sort((one, other) => size(other) - size(one));
  const largest = sorted.length > 0 ? size(sorted[0]) : 0;
  return (
    <>
      <ul className={styles['bars']} aria-label="Effect of one more millimetre or degree, largest first">
        {sorted.map((help) => (
          <li key={help.dimension.name}>
            <Bar help={help} objective={objective} largest={largest} stale={stale} />
          </li>
        ))}
      </ul>
      <Step report={report} objective={objective} />
    </>
  );
}

interface BarProps {
  readonly help: Help;
  readonly objective: Objective;
  readonly largest: number;
  readonly stale: boolean;
}

function Bar({ help, objective, largest, stale }: BarProps) {
  const chosen = useStore(helpsDesk.store, (state) => state.chosen === help.dimension.name);
  const found = shownEffect(help, objective);
  const effect = found?.effect ?? 0;
  const share = largest > 0 ? (50 * Math.abs(effect)) / largest : 0;
  return (
    <Button
      look="bare"
      className={styles['bar']}
      aria-pressed={chosen}
      data-lost={found === null || found.lost}
      disabled={stale}
      onClick={() => helpsDesk.choose(chosen ? null : help.dimension.name)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !chosen) return;
        event.stopPropagation();
        helpsDesk.choose(null);
      }}
    >
      <span className={styles['words']}>{barWords(help)}</span>
      <small>{dimensionText(help)}</small>
      <span className={styles['track']} aria-hidden="true">
        <i data-sign={effect < 0 ? 'less' : 'more'} style={{ width: `${share}%` }} />
      </span>
      <span className={styles['value']}>{effectText(help, objective)}</span>
    </Button>
  );
}

/** What the chosen step would do, and the button that makes it. */
function Step({ report, objective }: Pick<HelpsTableProps, 'report' | 'objective'>) {
  const chosen = useStore(helpsDesk.store, (state) => state.chosen);
  // the step depends on the size chosen, too
  useStore(helpsDesk.store, (state) => state.size);
  const help = report.helps.find(({ dimension }) => dimension.name === chosen);
  if (!help) return <p className={styles['step']}>Choose a bar to see the step that helps, dashed in the 3D view.</p>;
  const step = helpsDesk.step(help.dimension.name);
  if (!step) return <NoStep help={help} report={report} objective={objective} />;
  const words = stepWords(help, step);
  const apply = () => {
    const refused = helpsDesk.apply(words);
    if (refused !== null) notify(noticesStore, `This step cannot be made: ${refused}`, { tone: 'warning' });
  };
  return (
    <div className={styles['step']}>
      <p role="status">
        <b>{words}</b>: about {stepEffect(help, objective, step.change)}, by the slope for{' '}
        {sideSlope(help, objective, step.change)}.
        {onlyALimit(help) ? ' It moves a limit and no part, so the ghost looks the same.' : ''}
      </p>
      <Button look="filled" onClick={apply}>
        Apply this step
      </Button>
    </div>
  );
}

/** Why there is nothing to apply. */
function NoStep({ help, report, objective }: { readonly help: Help } & Pick<HelpsTableProps, 'report' | 'objective'>) {
  const helpful = helpfulSense(help, objective, report[objective] ?? 0) !== null;
  return (
    <p className={styles['step']} role="status">
      <span>
        <b>{help.dimension.words}</b>: {bothEffectsText(help, objective)}.{' '}
        {helpful ? 'The design does not take this step.' : 'Neither way is there anything to gain that can be told.'}
      </span>
    </p>
  );
}
