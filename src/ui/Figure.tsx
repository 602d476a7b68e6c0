import { ChevronDown } from 'lucide-react';
import { type ReactNode, useId, useState } from 'react';
import { Button } from './Button.tsx';
import styles from './figure.module.css';

interface FigureProps {
  readonly label: string;
  /** Number and unit. */
  readonly value: string;
  /** The formula with its own values. */
  readonly how: ReactNode;
  readonly alarming?: boolean;
}

/** A result that says how it was computed when it is pressed. */
export function Figure({ label, value, how, alarming = false }: FigureProps) {
  const id = useId();
  const [open, setOpen] = useState(false);
  return (
    <div className={styles['figure']}>
      <Button look="bare" aria-expanded={open} aria-controls={id} onClick={() => setOpen(!open)} title="How computed">
        <span className={styles['label']}>{label}</span>
        <b data-alarming={alarming}>
          {alarming ? '▲ ' : ''}
          {value}
        </b>
        <ChevronDown size={12} aria-hidden="true" data-open={open} />
      </Button>
      <div id={id} className={styles['how']} hidden={!open}>
        {open ? how : null}
      </div>
    </div>
  );
}

interface ExplainedProps {
  /** Heading of the table or sentence. */
  readonly title: string;
  /** The formula with its own values. */
  readonly how: ReactNode;
  /** Takes the id of the heading, to be named by it. */
  readonly children: (titleId: string) => ReactNode;
}

/** A table or sentence under a heading that says how it was computed when it is pressed. */
export function Explained({ title, how, children }: ExplainedProps) {
  const id = useId();
  const titleId = useId();
  const [open, setOpen] = useState(false);
  return (
    <div className={styles['explained']}>
      <Button look="bare" aria-expanded={open} aria-controls={id} onClick={() => setOpen(!open)} title="How computed">
        <span id={titleId}>{title}</span>
        <ChevronDown size={12} aria-hidden="true" data-open={open} />
      </Button>
      {children(titleId)}
      <div id={id} className={styles['how']} hidden={!open}>
        {open ? how : null}
      </div>
    </div>
  );
}
