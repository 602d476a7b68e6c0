import { type AccuracyReport, beyondFirstOrder } from '../../kinematics/accuracy.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { degrees } from '../../terms/units.ts';
import { Figure } from '../../ui/Figure.tsx';
import { Group } from '../../ui/Group.tsx';
import { listed, three } from '../../words/numbers.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { Contributors, errorsByLeg, Offsets } from './ErrorTables.tsx';
import styles from './judge.module.css';
import { ERROR_SPECS } from './judge-specs.ts';
import { OwnErrors } from './OwnErrors.tsx';
import { type Judged, useJudged } from './useJudged.ts';

/** How far the tool can be off. */
export const AccuracyGroup = () => (
  <Group title="Accuracy" brief={<Brief />} startsFolded>
    <Results />
    <h3 className={styles['heading']}>Errors of each leg and its joints</h3>
    {ERROR_SPECS.map((spec) => (
      <DesignNumber key={spec.name} spec={spec} />
    ))}
    <p className={styles['note']}>
      Step, backlash and plays are end to end; those with ± hold either way. Holes count along the plate, heights square
      to it.
    </p>
    <OwnErrors />
  </Group>
);

/** Why the report's figures mean nothing at this pose; null where they do. */
const tooLarge = ({ mechanism }: Judged, { worst }: AccuracyReport): string | null =>
  beyondFirstOrder(mechanism, worst.translationLength, worst.rotationLength);

function Brief() {
  const judged = useJudged();
  const report = judged.at.accuracy;
  if (report.ok && tooLarge(judged, report.value)) return <>too near a singular pose</>;
  return <>{report.ok ? `worst ${three(report.value.worst.translationLength)} mm` : 'no bound here'}</>;
}

function Results() {
  const judged = useJudged();
  const report = judged.at.accuracy;
  if (!report.ok) return <p className={styles['alarm']}>▲ {report.fault.message}</p>;
  const beyond = tooLarge(judged, report.value);
  if (beyond) return <p className={styles['alarm']}>▲ {beyond}</p>;
  const { worst, rss } = report.value;
  return (
    <>
      {judged.inputs.assumed.accuracy ? (
        <p className={styles['note']}>
          The design states no errors yet: legs that are 0.05 mm off are assumed, as an example.
        </p>
      ) : null}
      <Figure
        label="Worst shift at the tool"
        value={`${three(worst.translationLength)} mm`}
        how={<WorstHow judged={judged} report={report.value} />}
      />
      <Figure
        label="Worst turn"
        value={`${three(degrees(worst.rotationLength))} deg`}
        how={
          <p>
            Rows 4 to 6 of |J⁻¹| δ: about x, y, z at most {listed(worst.rotation, 180 / Math.PI)} deg; the longest
            vector over all signs of δ is shown.
          </p>
        }
      />
      <Figure
        label="Likely (root sum square)"
        value={`${three(rss.translationLength)} mm`}
        how={
          <p>
            √(Σ (J⁻¹ᵢⱼ δⱼ)²), every source of every leg on its own: {listed(rss.translation)} mm along x, y, z and{' '}
            {listed(rss.rotation, 180 / Math.PI)} deg about them. Holds if errors are independent of each other.
          </p>
        }
      />
      <Contributors judged={judged} report={report.value} />
      <Offsets judged={judged} />
    </>
  );
}

function WorstHow({ judged, report }: { readonly judged: Judged; readonly report: AccuracyReport }) {
  const bounds = errorsByLeg(judged);
  const sums = new Float64Array(LEG_COUNT);
  bounds?.forEach((bound, n) => {
    sums[n % LEG_COUNT] += bound;
  });
  return (
    <p>
      dx = J⁻¹ δ, to first order. δ, each leg’s error in length: half of step, backlash and plays, all of the zero
      error, and of hole and height what lies along the leg: {listed(sums)} mm for legs 1 to 6. |J⁻¹| δ along x, y, z:
      at most {listed(report.worst.translation)} mm; the longest vector over all signs of δ is{' '}
      {three(report.worst.translationLength)} mm.
    </p>
  );
}
