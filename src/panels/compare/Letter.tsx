import type { ComparedColumn } from '../../jobs/compare-service.ts';
import { COLUMN_DASHES } from '../../state/compare/column-dashes.ts';
import styles from './compare-table.module.css';

/** The letter of a column with a piece of its line. */
export const Letter = ({ letter }: { readonly letter: ComparedColumn }) => (
  <span className={styles['letter']}>
    <b>{letter}</b>
    <svg width="34" height="8" viewBox="0 0 34 8" aria-hidden="true">
      <path className={styles['line']} data-letter={letter} d="M1 4 H33" strokeDasharray={COLUMN_DASHES[letter]} />
    </svg>
  </span>
);
