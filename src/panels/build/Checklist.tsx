import { PURPOSE_WORDS, PURPOSES, type Purpose } from '../../build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../../build/exporters.ts';
import { TICKABLE } from '../../state/build/build-desk.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import styles from './build.module.css';
import { useBuild, useBuildDesk } from './desk-context.ts';

const SIDES = [
  ['both', 'both'],
  ['base', 'base'],
  ['platform', 'platform'],
] as const;

interface ChecklistProps {
  /** Saves the file that was written. */
  readonly onSave: () => void;
}

/** What leaves, in the workshop's order, and the one button that saves what is ticked. */
export function Checklist({ onSave }: ChecklistProps) {
  const desk = useBuildDesk();
  const sides = useBuild((state) => state.sides);
  return (
    <div className={styles['checklist']}>
      {PURPOSES.map((purpose) => (
        <PurposeGroup key={purpose} purpose={purpose} />
      ))}
      <div className={styles['save']}>
        <Choice
          name="Plates that are written"
          label="Plates"
          value={sides}
          options={SIDES}
          onChoose={(value) => desk.setSides(value)}
        />
        <SaveButton onSave={onSave} />
        <SavingNote />
      </div>
    </div>
  );
}

function PurposeGroup({ purpose }: { readonly purpose: Purpose }) {
  const ids = TICKABLE.filter((id) => EXPORTERS[id].purpose === purpose);
  if (ids.length === 0) return null;
  return (
    <fieldset className={styles['purpose']}>
      <legend>{PURPOSE_WORDS[purpose]}</legend>
      {ids.map((id) => (
        <Row key={id} id={id} />
      ))}
    </fieldset>
  );
}

function Row({ id }: { readonly id: ExporterId }) {
  const desk = useBuildDesk();
  const ticked = useBuild((state) => state.ticked.has(id));
  const { words, says } = EXPORTERS[id];
  return (
    <label className={styles['row']}>
      <input type="checkbox" checked={ticked} onChange={(event) => desk.tick(id, event.target.checked)} />
      <span>
        <span className={styles['format']}>{words}</span>
        <span className={styles['says']}>{says}</span>
      </span>
    </label>
  );
}

function SaveButton({ onSave }: ChecklistProps) {
  const desk = useBuildDesk();
  const count = useBuild((state) => state.ticked.size);
  const running = useBuild((state) => state.saving?.status === 'running');
  const share = useBuild((state) => (state.saving?.status === 'running' ? state.saving.share : 0));
  if (running)
    return (
      <p className={styles['progress']}>
        <progress value={share} aria-label="Written so far" />
        <Button onClick={() => desk.cancel()}>Cancel</Button>
      </p>
    );
  const words = count === 1 ? 'Save the ticked format' : `Save ${count} formats`;
  return (
    <Button look="filled" disabled={count === 0} onClick={onSave}>
      {count === 0 ? 'Tick what to save' : words}
    </Button>
  );
}

function SavingNote() {
  const saving = useBuild((state) => state.saving);
  if (!saving || saving.status === 'running') return null;
  const words = {
    done: `Written: ${saving.words}.${saving.warnings.length > 0 ? ` ${saving.warnings.length} warnings are in it.` : ''}`,
    cancelled: 'Stopped; nothing was written.',
    failed: `Not written: ${saving.words}`,
  }[saving.status];
  return (
    <div role="status" className={styles['saved']}>
      <p>{words}</p>
      {saving.warnings.length > 0 ? <Warnings warnings={saving.warnings} /> : null}
    </div>
  );
}

/** What is odd, a line each. */
export const Warnings = ({ warnings }: { readonly warnings: readonly string[] }) => (
  <ul className={styles['warnings']}>
    {warnings.map((warning) => (
      <li key={warning}>{warning}</li>
    ))}
  </ul>
);
