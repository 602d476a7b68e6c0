import { ChevronDown } from 'lucide-react';
import { type ReactNode, useId, useState } from 'react';
import { withMinus } from '../controls/number-text.ts';
import styles from './judge.module.css';

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
      <button type="button" aria-expanded={open} aria-controls={id} onClick={() => setOpen(!open)} title="How computed">
        <span className={styles['label']}>{label}</span>
        <b data-alarming={alarming}>
          {alarming ? '▲ ' : ''}
          {value}
        </b>
        <ChevronDown size={12} aria-hidden="true" data-open={open} />
      </button>
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
      <button type="button" aria-expanded={open} aria-controls={id} onClick={() => setOpen(!open)} title="How computed">
        <span id={titleId}>{title}</span>
        <ChevronDown size={12} aria-hidden="true" data-open={open} />
      </button>
      {children(titleId)}
      <div id={id} className={styles['how']} hidden={!open}>
        {open ? how : null}
      </div>
    </div>
  );
}

/** Three significant figures, as results from first-order models deserve. */
export const three = (value: number): string => {
  if (!Number.isFinite(value)) return 'no bound';
  const size = Math.abs(value);
  if (size < TOO_SMALL) return '0';
  return withMinus(String(Number(value.toPrecision(3))));
};

/** Below a millionth of any unit shown here a number is rounding. */
const TOO_SMALL = 1e-6;

/** Numbers of a vector. */
export const listed = (values: ArrayLike<number>, factor = 1): string =>
  Array.from(values, (value) => three(value * factor)).join(', ');
