import { ChevronDown } from 'lucide-react';
import { memo, type ReactNode } from 'react';
import { Button } from '../../ui/Button.tsx';
import styles from './verdict.module.css';

/** Id of the element that shows a verdict's reason. */
export const REASON_ID = 'verdict-reason';

/** What every verdict of the strip takes. */
export interface VerdictCellProps {
  readonly open: boolean;
  readonly onToggle: (id: string) => void;
}

interface CellProps extends VerdictCellProps {
  readonly id: string;
  readonly title: string;
  readonly headline: ReactNode;
  readonly line: ReactNode;
  /** Computed for an older design, or not yet computed. */
  readonly stale?: boolean;
  readonly alarming?: boolean;
}

const Chevron = memo(function Chevron({ open }: { readonly open: boolean }) {
  return <ChevronDown size={12} aria-hidden="true" data-open={open} />;
});

/** One verdict of the strip: a button that opens its reason. */
export function Cell({ id, title, headline, line, stale = false, alarming = false, open, onToggle }: CellProps) {
  return (
    <Button
      look="bare"
      className={styles['cell']}
      data-stale={stale}
      data-alarming={alarming}
      aria-expanded={open}
      aria-controls={open ? REASON_ID : undefined}
      onClick={() => onToggle(id)}
    >
      <span className={styles['title']}>
        <span>{title}</span>
        {stale ? <em>earlier state, computing…</em> : null}
        <Chevron open={open} />
      </span>
      <span className={styles['headline']}>{headline}</span>
      <span className={styles['line']}>{line}</span>
    </Button>
  );
}
