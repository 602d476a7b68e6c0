import { Button } from '../../ui/Button.tsx';
import styles from './judge.module.css';
import { MeshPlacingForm } from './MeshPlacingForm.tsx';
import { type MeshImporting, standsAt } from './useMeshImport.ts';

/** What an import of a mesh shows of itself: that it reads, why it cannot, or the questions that the file leaves open. */
export function MeshStages({ importing }: { readonly importing: MeshImporting }) {
  const { stage, place, take, cancel } = importing;
  return (
    <>
      <div role="status">
        {stage.at === 'reading' ? (
          <p className={styles['buttons']}>
            <span className={styles['note']}>Reading {stage.name}…</span>
            <progress aria-label={`Reading ${stage.name}`} value={stage.share} />
            <Button onClick={cancel}>Cancel</Button>
          </p>
        ) : null}
        {stage.at === 'refused' ? <p className={styles['alarm']}>▲ {stage.message} The design is as it was.</p> : null}
      </div>
      {stage.at === 'placing' ? (
        <MeshPlacingForm
          mesh={stage.mesh}
          placing={stage.placing}
          standsAt={standsAt()}
          onChange={place}
          onTake={take}
          onCancel={cancel}
        />
      ) : null}
    </>
  );
}
