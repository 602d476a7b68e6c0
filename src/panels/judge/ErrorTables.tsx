import { type AccuracyReport, holdsFirstOrder } from '../../kinematics/accuracy.ts';
import { ERROR_SOURCE_WORDS, ERROR_SOURCES, legErrorBounds } from '../../kinematics/error-sources.ts';
import { jacobian } from '../../kinematics/jacobian.ts';
import { REFERENCE_OFFSET } from '../../kinematics/judge.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { rotateBack } from '../../math/rotation.ts';
import { length } from '../../math/vec3.ts';
import { degrees } from '../../terms/units.ts';
import { Explained } from '../../ui/Figure.tsx';
import { Table } from '../../ui/Table.tsx';
import { listed, three } from '../../words/numbers.ts';
import styles from './judge.module.css';
import type { Judged } from './useJudged.ts';

/** How much each source can change each leg's length [mm], source by leg; null when a number cannot be used. */
export function errorsByLeg({ mechanism, pose, inputs }: Judged): Float64Array | null {
  const bounds = legErrorBounds(mechanism, jacobian(mechanism, pose), (u) => rotateBack(pose.R_BP, u), inputs.errors);
  return bounds.ok ? bounds.value : null;
}

interface ContributorsProps {
  readonly judged: Judged;
  readonly report: AccuracyReport;
}

/** Which source of error matters most. */
export function Contributors({ judged, report }: ContributorsProps) {
  const { contributors } = report;
  const largest = contributors[0]?.worst.translationLength ?? 0;
  if (contributors.length === 0) return <p className={styles['note']}>No source of error is above zero.</p>;
  return (
    <Explained title="Worst shift by source, largest first" how={<ContributorsHow judged={judged} report={report} />}>
      {(titleId) => (
        <Table className={styles['bars']} aria-labelledby={titleId}>
          <tbody>
            {contributors.map(({ source, worst }) => (
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
        </Table>
      )}
    </Explained>
  );
}

function ContributorsHow({ judged, report }: ContributorsProps) {
  const bounds = errorsByLeg(judged);
  return (
    <>
      <p>
        The longest J⁻¹ δ over all signs of δ with one source alone, the others at zero. δ of legs 1 to 6, first order:
      </p>
      {report.contributors.map(({ source, worst }) => {
        const at = LEG_COUNT * ERROR_SOURCES.indexOf(source);
        return (
          <p key={source}>
            {ERROR_SOURCE_WORDS[source]}: {bounds ? listed(bounds.subarray(at, at + LEG_COUNT)) : ''} mm; at the tool{' '}
            {three(worst.translationLength)} mm and {three(degrees(worst.rotationLength))} deg
          </p>
        );
      })}
    </>
  );
}

/** Of legs that are equal but for rounding the first is named. */
const BEYOND_TIE = 1 + 1e-9;

/** The same error in all legs against one leg alone. */
export function Offsets({ judged: { mechanism, at } }: { readonly judged: Judged }) {
  const effects = at.offsets;
  if (!effects.ok) return null;
  const { allLegs, oneLeg } = effects.value;
  const worst = oneLeg.reduce(
    (most, { translation }, leg) => (length(translation) > BEYOND_TIE * length(oneLeg[most].translation) ? leg : most),
    0,
  );
  const one = oneLeg[worst];
  const turns = [allLegs, ...oneLeg].map(({ rotation }) => length(rotation));
  const shifts = [allLegs, ...oneLeg].map(({ translation }) => length(translation));
  if (!holdsFirstOrder(mechanism, Math.max(...shifts), Math.max(...turns))) return null;
  return (
    <Explained
      title={`All legs ${REFERENCE_OFFSET} mm longer, or one alone`}
      how={
        <p>
          dx = J⁻¹ dl to first order, dl = {REFERENCE_OFFSET} mm for the legs named and 0 for the others. Leg{' '}
          {worst + 1} alone: shift {listed(one.translation)} mm, turn {listed(one.rotation, 180 / Math.PI)} deg. Shifts
          of each leg alone, legs 1 to 6: {oneLeg.map(({ translation }) => three(length(translation))).join(', ')} mm.
        </p>
      }
    >
      {() => (
        <p className={styles['note']}>
          All six legs {REFERENCE_OFFSET} mm longer move the tool by {listed(allLegs.translation)} mm and turn it by{' '}
          {three(degrees(length(allLegs.rotation)))} deg: a new zero removes most of it. Leg {worst + 1} alone{' '}
          {REFERENCE_OFFSET} mm longer shifts it by <b>{three(length(one.translation))} mm</b> and tilts it by{' '}
          <b>{three(degrees(length(one.rotation)))} deg</b>, which no new height removes.
        </p>
      )}
    </Explained>
  );
}
