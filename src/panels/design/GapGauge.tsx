import { memo } from 'react';
import { compiledDesign } from '../../document/compiled.ts';
import { SINGULAR_GAP_SUM } from '../../kinematics/verdict-reason.ts';
import { degrees } from '../../terms/units.ts';
import { roundedText } from '../../words/numbers.ts';
import { useDesign } from '../design-binding.ts';
import { PLATE_WORDS } from '../number-spec.ts';
import styles from './gap-gauge.module.css';

/** Both pair gaps wide open [deg]: the end of the gauge. */
const WIDEST = 240;

const SINGULAR_deg = degrees(SINGULAR_GAP_SUM);

/** Half width of the hatched neighbourhood of 120 deg in which layouts come out nearly singular or worse [deg]. */
const NEAR_deg = 10;

const share = (angle_deg: number): string => `${(angle_deg / WIDEST) * 100}%`;

interface GapGaugeProps {
  readonly base_deg: number;
  readonly sum_deg: number;
}

/** The two pair gaps end to end, against the 120 deg at which the legs stop being independent. */
export const GapGauge = memo(function GapGauge({ base_deg, sum_deg }: GapGaugeProps) {
  const platform_deg = sum_deg - base_deg;
  const near = Math.abs(sum_deg - SINGULAR_deg) <= NEAR_deg;
  const words = `Gap sum: ${PLATE_WORDS.base} ${roundedText(base_deg, 1)} and ${PLATE_WORDS.platform} ${roundedText(platform_deg, 1)} make ${roundedText(sum_deg, 1)} deg; at 120 deg the legs are dependent at every pose.`;
  return (
    <div className={styles['gauge']} role="img" aria-label={words} title={words}>
      <div className={styles['scale']}>
        <i className={styles['near']} style={{ left: share(SINGULAR_deg - NEAR_deg), width: share(2 * NEAR_deg) }} />
        <i className={styles['base']} style={{ left: 0, width: share(base_deg) }} />
        <i className={styles['platform']} style={{ left: share(base_deg), width: share(platform_deg) }} />
        <i className={styles['singular']} style={{ left: share(SINGULAR_deg) }} />
      </div>
      <span className={styles['sum']} data-near={near}>
        {near ? '▲ ' : ''}A+B {roundedText(sum_deg, 1)}/120
      </span>
    </div>
  );
});

/** Without the rounding of a gap found from joints, which changes with the radius though the gap does not. */
const settled = (angle_deg: number): number => Number(angle_deg.toFixed(9));

/** Binds the gauge; it is not there when the plates are not two rings turned alike, for which no gap rule holds. */
export function GapGaugeOfDesign() {
  const sum_deg = useDesign((document) => {
    const { gapSum } = compiledDesign(document).architecture;
    return gapSum === null ? null : settled(degrees(gapSum));
  });
  const base_deg = useDesign((document) => {
    const { base: points } = compiledDesign(document).mechanism.centres;
    const turn = Math.atan2(points[4], points[3]) - Math.atan2(points[1], points[0]);
    return settled(degrees(Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)))));
  });
  return sum_deg === null ? null : <GapGauge base_deg={base_deg} sum_deg={sum_deg} />;
}
