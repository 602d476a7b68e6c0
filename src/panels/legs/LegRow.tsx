import { memo } from 'react';
import { Button } from '../../ui/Button.tsx';
import styles from './leg-table.module.css';

export interface LegRowProps {
  readonly leg: number;
  /** [mm] */
  readonly length: number;
  /** Share of the stroke that is out: 0 at the shortest, 1 at the longest leg. */
  readonly stroke: number;
  /** Limited angles of the joints [deg], one or two; and how much of the limit is used. */
  readonly baseAngles: string;
  readonly baseShare: number;
  readonly platformAngles: string;
  readonly platformShare: number;
  /** How far the leg has twisted, with what it does to the length; null where legs turn freely. */
  readonly twist: string | null;
  /** In words; empty when all limits hold. */
  readonly warning: string;
  readonly highlighted: boolean;
  readonly onPoint: (leg: number | null) => void;
}

const percent = (share: number): string => `${Math.round(share * 100)}%`;

/** One leg: numbers, bars, and what is wrong with it. */
export const LegRow = memo(function LegRow(props: LegRowProps) {
  const { leg, length, stroke, baseAngles, baseShare, platformAngles, platformShare, twist } = props;
  const { warning, highlighted, onPoint } = props;
  return (
    <tr
      data-highlighted={highlighted}
      data-warning={warning !== ''}
      onPointerEnter={() => onPoint(leg)}
      onPointerLeave={() => onPoint(null)}
    >
      <th scope="row">
        <Button
          look="bare"
          aria-label={`Leg ${leg}, point at it`}
          onFocus={() => onPoint(leg)}
          onBlur={() => onPoint(null)}
        >
          {leg}
        </Button>
      </th>
      <td>{length.toFixed(1)}</td>
      <td>
        <span className={styles['pair']}>
          <StrokeBar share={stroke} />
          <span>{percent(stroke)}</span>
        </span>
      </td>
      <td>
        <TiltCell angles={baseAngles} share={baseShare} />
      </td>
      <td>
        <TiltCell angles={platformAngles} share={platformShare} />
      </td>
      {twist === null ? null : <td className={styles['twist']}>{twist}</td>}
      <td className={styles['state']} title={warning}>
        {warning === '' ? (
          <span className={styles['fine']}>within limits</span>
        ) : (
          <span className={styles['warning']}>▲ {warning}</span>
        )}
      </td>
    </tr>
  );
});

/** The drawn bar shows a tenth of the stroke on either side, so that a leg past its end is seen to be. */
const BAR_MARGIN = 0.1;

function StrokeBar({ share }: { readonly share: number }) {
  const place = (at: number): string => `${((at + BAR_MARGIN) / (1 + 2 * BAR_MARGIN)) * 100}%`;
  const shown = Math.min(Math.max(share, -BAR_MARGIN), 1 + BAR_MARGIN);
  const outside = share < 0 || share > 1;
  return (
    <span className={styles['bar']} data-outside={outside} aria-hidden="true">
      <i className={styles['end']} style={{ left: place(0) }} />
      <i className={styles['end']} style={{ left: place(1) }} />
      <i
        className={styles['fill']}
        style={{ left: place(0), width: `calc(${place(Math.max(Math.min(shown, 1), 0))} - ${place(0)})` }}
      />
      <i className={styles['needle']} style={{ left: place(shown) }} />
    </span>
  );
}

function TiltCell({ angles, share }: { readonly angles: string; readonly share: number }) {
  return (
    <span className={styles['pair']}>
      <span className={styles['angle']} data-two={angles.includes('/')}>
        {angles}
      </span>
      <span className={styles['bar']} data-outside={share > 1} aria-hidden="true">
        <i className={styles['fill']} style={{ left: 0, width: percent(Math.min(share, 1)) }} />
        <i className={styles['end']} style={{ left: '100%' }} />
      </span>
      <span className={styles['share']}>{percent(share)}</span>
    </span>
  );
}
