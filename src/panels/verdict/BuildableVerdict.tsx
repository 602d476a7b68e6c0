import { buildInputs } from '../../document/build-inputs.ts';
import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { BUILD_SLACK, type Buildable, judgeBuildable } from '../../kinematics/buildable/judge.ts';
import { gapWords } from '../../words/buildable.ts';
import { sentence } from '../../words/firmness.ts';
import { useDesign } from '../design-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import styles from './verdict.module.css';

const known = new WeakMap<DesignDocument, Buildable>();

/** Judges a document once. */
function buildableOf(document: DesignDocument): Buildable {
  let judged = known.get(document);
  if (!judged) {
    const { mechanism } = compiledDesign(document);
    judged = judgeBuildable(mechanism, buildInputs(document, mechanism));
    known.set(document, judged);
  }
  return judged;
}

/** Whether the layout can be built, and what is tightest. */
export function BuildableCell(props: VerdictCellProps) {
  const { possible, worst } = useDesign(buildableOf);
  return (
    <Cell
      id="buildable"
      title="Can it be built"
      alarming={!possible}
      headline={
        <>
          <span className={styles['mark']} aria-hidden="true">
            {possible ? '●' : '✕'}
          </span>
          {possible ? 'Yes' : 'No'}
        </>
      }
      line={sentence(gapWords(worst, possible))}
      {...props}
    />
  );
}

export function BuildableWhy() {
  const { gaps } = useDesign(buildableOf);
  return (
    <>
      <ul>
        {gaps.map((gap) => {
          const fits = gap.gap >= -BUILD_SLACK;
          return (
            <li key={gap.rule} className={fits ? undefined : styles['broken']}>
              {fits ? '' : '✕ '}
              {sentence(gapWords(gap, fits))}
            </li>
          );
        })}
      </ul>
      <p className={styles['note']}>
        Computed at home and on the plates, the tightest of every rule: joint bodies 1 mm apart, as wide as the parts
        say, or as the barrel; all 15 pairs of legs with their true barrels and rods; each barrel over the base plate at
        its largest tilt; home within stroke and tilt; an actuator whose longest length is at most twice its shortest
        less its dead length. It says nothing of strength. Distances of legs are exact; where axes cross, the figure
        says only how thick both are.
      </p>
    </>
  );
}
