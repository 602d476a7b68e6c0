import { useMemo } from 'react';
import { COLUMN_DASHES } from '../../state/compare/column-dashes.ts';
import type { ComparedShell } from '../model/compared-shells.ts';
import styles from './flat.module.css';
import { type FlatViewName, pathThrough } from './projection.ts';
import { silhouette } from './silhouette.ts';

interface ComparedOutlineProps {
  readonly compared: ComparedShell;
  readonly view: FlatViewName;
  /** Width of a CSS pixel on the sheet [mm]. */
  readonly hair: number;
}

/** The outlines of compared designs' reaches, each in the line of its column and with its letter. */
export const ComparedOutlines = ({
  compared,
  ...rest
}: Omit<ComparedOutlineProps, 'compared'> & { readonly compared: readonly ComparedShell[] }) =>
  compared.map((one) => <ComparedOutline key={one.letter} compared={one} {...rest} />);

function ComparedOutline({ compared: { shell, letter, place }, view, hair }: ComparedOutlineProps) {
  const rings = useMemo(() => silhouette(shell, view), [shell, view]);
  const dashes = COLUMN_DASHES[letter]?.split(' ').map((dash) => Number(dash) * hair);
  const rim = rings[0];
  if (!rim) return null;
  // letters go round their rims by quarters, so that they keep apart
  const [x, y] = rim[Math.floor(((place + 0.5) / 4) * rim.length) % rim.length];
  return (
    <>
      <path
        className={styles['reach']}
        data-kind="ghost"
        d={rings.map((ring) => pathThrough(ring)).join('')}
        strokeWidth={1.4 * hair}
        strokeDasharray={dashes?.join(' ')}
      />
      <g className={styles['letter']} transform={`translate(${x} ${y}) scale(${hair})`}>
        <rect x="-8" y="-8" width="16" height="16" />
        <text>{letter}</text>
      </g>
    </>
  );
}
