import { compiledDesign } from '../../document/compiled.ts';
import { magnificationText, VERDICT_MARKS } from '../../words/firmness.ts';
import { figure } from '../../words/numbers.ts';
import { useDesign } from '../design-binding.ts';
import { useJudgement } from '../pose-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import { FirmnessReason } from './FirmnessReason.tsx';
import styles from './verdict.module.css';

/** How firmly the legs hold the platform at the present pose. */
export function FirmnessCell(props: VerdictCellProps) {
  const { verdict, firmness, magnification } = useJudgement().independence;
  return (
    <Cell
      id="firmness"
      title="Firmness"
      alarming={verdict.word !== 'firm'}
      headline={
        <>
          <span className={styles['mark']} aria-hidden="true">
            {VERDICT_MARKS[verdict.word]}
          </span>
          <span className={styles['word']}>{verdict.word}</span>{' '}
          {Number.isFinite(magnification) ? (
            <small>
              <span className={styles['spare']} data-long={verdict.word !== 'firm' && verdict.word !== 'soft'}>
                {figure(firmness)}, magnifies{' '}
              </span>
              {magnificationText(magnification)}
            </small>
          ) : null}
        </>
      }
      line={verdict.reason}
      {...props}
    />
  );
}

export function FirmnessWhy() {
  const architecture = useDesign((document) => compiledDesign(document).architecture);
  const ownLength = useDesign((document) => document.characteristicLength_mm !== undefined);
  const { independence } = useJudgement();
  return <FirmnessReason independence={independence} architecture={architecture} ownLength={ownLength} />;
}
