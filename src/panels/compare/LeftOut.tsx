import type { ComparedFigures } from './compared-figures.ts';
import { layoutOf } from './compared-figures.ts';
import styles from './curves.module.css';

/** Says which designs have no lines to draw, and why. */
export function LeftOut({ figures }: { readonly figures: readonly ComparedFigures[] }) {
  const reasons = figures.flatMap((column) => {
    const { letter } = column.design;
    if (column.layout === null) return [`${letter}: being computed…`];
    if (column.layout.kind === 'failed') return [`▲ ${letter}: not computed, ${column.layout.reason}`];
    const lines = layoutOf(column)?.lines;
    if (!lines) return [`▲ ${letter}: home itself breaks limits, so there is no free travel`];
    const singular = lines.every(({ magnifications }) => magnifications.every((value) => !Number.isFinite(value)));
    return singular ? [`✕ ${letter}: without bound everywhere, so it has no line of firmness`] : [];
  });
  if (reasons.length === 0) return null;
  return (
    <ul className={styles['leftOut']}>
      {reasons.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
  );
}
