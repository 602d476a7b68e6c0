import { memo } from 'react';
import { COLUMN_DASHES } from '../../state/compare/column-dashes.ts';
import { type ComparedDrawing, legsOnSheet, platePath, reachPath } from './compared-drawing.ts';
import styles from './compared-views.module.css';
import { onSheet, type ViewBasis } from './turned-view.ts';

interface PartProps {
  readonly drawing: ComparedDrawing;
  readonly basis: ViewBasis;
  /** One CSS pixel [mm]. */
  readonly hair: number;
}

/** A design at home: plates, numbered legs and tool point, what is nearer drawn later. */
export const LayoutFigure = memo(function LayoutFigure({ drawing: { mechanism }, basis, hair }: PartProps) {
  const fromAbove = basis.toEye[2] >= 0;
  const base = <path className={styles['base']} d={platePath(mechanism, 'base', basis)} strokeWidth={2 * hair} />;
  const platform = (
    <path className={styles['platform']} d={platePath(mechanism, 'platform', basis)} strokeWidth={1.2 * hair} />
  );
  const [x, y] = onSheet(basis, mechanism.home.p_BoTo_B);
  return (
    <>
      {fromAbove ? base : platform}
      {legsOnSheet(mechanism, basis).map(({ leg, from, to, label }) => (
        <g key={leg} className={styles['leg']}>
          <path d={`M${from[0]} ${from[1]} L${to[0]} ${to[1]}`} strokeWidth={3.2 * hair} />
          <g transform={`translate(${label[0]} ${label[1]}) scale(${hair})`}>
            <circle r="8" />
            <text>{leg}</text>
          </g>
        </g>
      ))}
      {fromAbove ? platform : base}
      <g className={styles['tool']} transform={`translate(${x} ${y}) scale(${hair})`}>
        <path d="M-7 0 H7 M0 -7 V7" />
      </g>
    </>
  );
});

/** The outline of a design's reach, in the line of its column. */
export const ReachFigure = memo(function ReachFigure({
  drawing: { shell, letter },
  basis,
  hair,
  filled = false,
}: PartProps & { readonly filled?: boolean }) {
  if (!shell) return null;
  const dashes = COLUMN_DASHES[letter]
    ?.split(' ')
    .map((dash) => Number(dash) * hair)
    .join(' ');
  return (
    <path
      className={styles['reach']}
      data-letter={letter}
      data-filled={filled || undefined}
      d={reachPath(shell, basis)}
      strokeWidth={1.8 * hair}
      strokeDasharray={dashes}
    />
  );
});
