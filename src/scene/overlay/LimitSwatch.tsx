import { useId } from 'react';
import type { LimitName } from '../../kinematics/limits.ts';
import styles from './overlay.module.css';

/** Path of one tile of the hatching, 8 by 8, as the reach is hatched in the drawing. */
const HATCHES: Readonly<Record<LimitName, string>> = {
  legTooShort: 'M-2 2 L2 -2 M-1 9 L9 -1 M6 10 L10 6',
  legTooLong: 'M-2 6 L2 10 M-1 -1 L9 9 M6 -2 L10 2',
  baseJoint: 'M0 4 H8',
  platformJoint: 'M4 4 h0.01',
};

/** A small field hatched and coloured like the reach where this limit binds. */
export function LimitSwatch({ limit }: { readonly limit: LimitName }) {
  const pattern = useId();
  return (
    <svg className={styles['swatch']} data-limit={limit} viewBox="0 0 24 14" aria-hidden="true">
      <defs>
        <pattern id={pattern} width="8" height="8" patternUnits="userSpaceOnUse">
          <path d={HATCHES[limit]} />
        </pattern>
      </defs>
      <rect width="24" height="14" className={styles['wash']} />
      <rect width="24" height="14" fill={`url(#${pattern})`} />
    </svg>
  );
}
