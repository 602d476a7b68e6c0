import { useMemo } from 'react';
import { degrees } from '../../document/units.ts';
import { type AccuracyReport, assessAccuracy, offsetEffects } from '../../kinematics/accuracy.ts';
import { ERROR_SOURCE_WORDS, legErrorBounds } from '../../kinematics/error-sources.ts';
import { jacobian } from '../../kinematics/jacobian.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { rotateBack } from '../../math/rotation.ts';
import { length } from '../../math/vec3.ts';
import { Group } from '../controls/Group.tsx';
import { DesignNumber } from '../design/DesignNumber.tsx';
import { Figure, listed, three } from './Figure.tsx';
import styles from './judge.module.css';
import { ERROR_SPECS } from './judge-specs.ts';
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
  </Group>
);

const useReport = (judged: Judged) =>
  useMemo(() => assessAccuracy(judged.mechanism, judged.pose, judged.inputs.errors), [judged]);

function Brief() {
  const report = useReport(useJudged());
  return <>{report.ok ? `worst ${three(report.value.worst.translationLength)} mm` : 'no bound here'}</>;
}

function Results() {
  const judged = useJudged();
  const report = useReport(judged);
  if (!report.ok) return <p className={styles['alarm']}>▲ {report.fault.message}</p>;
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
      <Contributors report={report.value} />
      <Offsets judged={judged} />
    </>
  );
}

function WorstHow({
  judged: { mechanism, pose, inputs },
  report,
}: {
  readonly judged: Judged;
  readonly report: AccuracyReport;
}) {
  const bounds = legErrorBounds(mechanism, jacobian(mechanism, pose), (u) => rotateBack(pose.R_BP, u), inputs.errors);
  const sums = new Float64Array(LEG_COUNT);
  if (bounds.ok) for (let n = 0; n < bounds.value.length; n++) sums[n % LEG_COUNT] += bounds.value[n];
  return (
    <p>
      dx = J⁻¹ δ, to first order. δ, each leg’s error in length: half of step, backlash and plays, all of the zero
      error, and of hole and height what lies along the leg: {listed(sums)} mm for legs 1 to 6. |J⁻¹| δ along x, y, z:
      at most {listed(report.worst.translation)} mm; the longest vector over all signs of δ is{' '}
      {three(report.worst.translationLength)} mm.
    </p>
  );
}

function Contributors({ report }: { readonly report: AccuracyReport }) {
  const largest = report.contributors[0]?.worst.translationLength ?? 0;
  if (report.contributors.length === 0) return <p className={styles['note']}>No source of error is above zero.</p>;
  return (
    <table className={styles['bars']}>
      <caption>Worst shift by source, largest first</caption>
      <tbody>
        {report.contributors.map(({ source, worst }) => (
          <tr key={source}>
            <th scope="row">{ERROR_SOURCE_WORDS[source]}</th>
            <td>
              <span
                className={styles['bar']}
                style={{ width: `${(100 * worst.translationLength) / (largest || 1)}%` }}
              />
            </td>
            <td>{three(worst.translationLength)} mm</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Of legs that are equal but for rounding the first is named. */
const BEYOND_TIE = 1 + 1e-9;

/** Offset compared [mm]. */
const OFFSET = 1;

function Offsets({ judged: { mechanism, pose } }: { readonly judged: Judged }) {
  const effects = offsetEffects(mechanism, pose, OFFSET);
  if (!effects.ok) return null;
  const { allLegs, oneLeg } = effects.value;
  const worst = oneLeg.reduce(
    (most, { translation }, leg) => (length(translation) > BEYOND_TIE * length(oneLeg[most].translation) ? leg : most),
    0,
  );
  const one = oneLeg[worst];
  return (
    <p className={styles['note']}>
      All six legs {OFFSET} mm longer move the tool by {listed(allLegs.translation)} mm and turn it by{' '}
      {three(degrees(length(allLegs.rotation)))} deg: a new zero removes most of it. Leg {worst + 1} alone {OFFSET} mm
      longer shifts it by <b>{three(length(one.translation))} mm</b> and tilts it by{' '}
      <b>{three(degrees(length(one.rotation)))} deg</b>, which no new height removes.
    </p>
  );
}
