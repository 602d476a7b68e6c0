import type { DesignFault } from '../../document/faults.ts';
import { DialogFrame } from './DialogFrame.tsx';
import styles from './dialogs.module.css';

interface FaultsDialogProps {
  /** What was to be opened. */
  readonly what?: 'file' | 'link';
  readonly fileName: string;
  readonly faults: readonly DesignFault[];
}

/** Why a file or a link could not be opened, fault by fault. */
export function FaultsDialog({ what = 'file', fileName, faults }: FaultsDialogProps) {
  const count = faults.length === 1 ? 'One thing is wrong' : `${faults.length} things are wrong`;
  return (
    <DialogFrame
      title={`This ${what} was not opened`}
      description={`${count} with ${fileName}. The design that was open is still open, unchanged.`}
    >
      <ol className={styles['faults']}>
        {faults.map((fault) => (
          <li key={fault.message}>
            <p className={styles['place']}>{fault.path === '' ? `The ${what} as a whole` : fault.path}</p>
            <dl>
              <dt>is</dt>
              <dd>{fault.value}</dd>
              <dt>must be</dt>
              <dd>{fault.limit}</dd>
              <dt>to do</dt>
              <dd>{fault.remedy}</dd>
            </dl>
          </li>
        ))}
      </ol>
    </DialogFrame>
  );
}
