import { DesignCell } from '../DesignNumber.tsx';
import styles from './judge.module.css';
import type { VectorSpecs } from './judge-specs.ts';

/** Three numbers of a vector side by side. */
export const VectorRow = ({ specs }: { readonly specs: VectorSpecs }) => (
  <div className={styles['vector']}>
    <span className={styles['label']}>{specs.label}</span>
    {specs.cells.map((cell) => (
      <span key={cell.name} className={styles['cell']}>
        <i aria-hidden="true">{cell.label}</i>
        <DesignCell spec={cell} />
      </span>
    ))}
    <span className={styles['unit']} aria-hidden="true">
      {specs.unit}
    </span>
  </div>
);
