import { compiledDesign } from '../../document/compiled.ts';
import { sentence } from '../../words/firmness.ts';
import { useDesign } from '../design-binding.ts';
import { useJoggedPose, useJudgement } from '../pose-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import { LimitsReason } from './LimitsReason.tsx';
import { useBroken, useTooNear } from './use-broken.ts';
import styles from './verdict.module.css';

/** Which limits the present pose breaks. */
export function LimitsCell(props: VerdictCellProps) {
  const jogged = useJoggedPose() !== null;
  const broken = useBroken();
  const count = broken.length;
  return (
    <Cell
      id="limits"
      title={jogged ? 'Limits at this pose' : 'Limits at the home pose'}
      alarming={count > 0}
      headline={
        <>
          <span className={styles['mark']} aria-hidden="true">
            {count > 0 ? '▲' : '●'}
          </span>
          {count === 0 ? 'None broken' : `${count} broken`}
        </>
      }
      line={count === 0 ? 'Every leg and joint is within its limits.' : sentence(broken.join('; '))}
      {...props}
    />
  );
}

export function LimitsWhy() {
  const mechanism = useDesign((document) => compiledDesign(document).mechanism);
  const { legs, joints } = useJudgement();
  return <LimitsReason legs={legs} mechanism={mechanism} joints={joints} tooNear={useTooNear()} />;
}
