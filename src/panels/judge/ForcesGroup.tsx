import { jacobian } from '../../kinematics/jacobian.ts';
import type { ForceReport } from '../../kinematics/statics.ts';
import { Explained, Figure } from '../../ui/Figure.tsx';
import { Group } from '../../ui/Group.tsx';
import { Table } from '../../ui/Table.tsx';
import { listed, three } from '../../words/numbers.ts';
import styles from './judge.module.css';
import { LoadInputs } from './LoadInputs.tsx';
import { SignsShown } from './SignsShown.tsx';
import { type Judged, useJudged } from './useJudged.ts';

/** What each leg carries. */
export const ForcesGroup = () => (
  <Group title="Load and forces" brief={<Brief />} startsFolded>
    <LoadInputs />
    <Results />
    <SignsShown />
  </Group>
);

function Brief() {
  const report = useJudged().at.forces;
  return <>{report.ok ? `up to ${three(largest(report.value))} N a leg` : 'no bound here'}</>;
}

const largest = ({ forces }: ForceReport): number => forces.reduce((most, force) => Math.max(most, Math.abs(force)), 0);

/** Of legs that carry the same but for rounding the first is named. */
const BEYOND_TIE = 1 + 1e-9;

const sense = (force: number): string => (force > 0 ? 'push' : force < 0 ? 'pull' : '');

function Results() {
  const judged = useJudged();
  const report = judged.at.forces;
  if (!report.ok) return <p className={styles['alarm']}>▲ {report.fault.message}</p>;
  const { forces, wrench, mixedSigns, explanation } = report.value;
  const most = largest(report.value);
  const legs = Array.from(forces, (force, index) => ({ leg: index + 1, force }));
  const worst = forces.findIndex((force) => Math.abs(force) * BEYOND_TIE >= most);
  const { mass } = judged.inputs.load.payload;
  return (
    <>
      {judged.inputs.assumed.payload ? (
        <p className={styles['note']}>The design states no payload yet: {mass} kg at the tool point is assumed.</p>
      ) : null}
      <Figure
        label="Largest leg force"
        value={`${three(most)} N ${sense(forces[worst])}, leg ${worst + 1}`}
        how={
          <p>
            Jᵀ f = −w at rest, J with rows [uᵢ, (R bᵢ) × uᵢ]. w = force {listed(wrench.subarray(0, 3))} N and moment{' '}
            {listed(wrench.subarray(3))} N mm about the tool point: {three(mass)} kg × 9.80665 N/kg and what acts from
            outside. The legs’ own weight is left out.
          </p>
        }
      />
      <Explained title="Force in each leg" how={<ForcesHow judged={judged} report={report.value} />}>
        {(titleId) => (
          <Table className={styles['forces']} aria-labelledby={titleId}>
            <tbody>
              {legs.map(({ leg, force }) => (
                <tr key={leg}>
                  <th scope="row">Leg {leg}</th>
                  <td className={styles['diverging']}>
                    <span
                      className={styles['bar']}
                      data-sense={sense(force)}
                      style={{ width: `${most > 0 ? (50 * Math.abs(force)) / most : 0}%` }}
                    />
                  </td>
                  <td>
                    {three(Math.abs(force))} N {sense(force)}
                  </td>
                </tr>
              ))}
            </tbody>
          </Table>
        )}
      </Explained>
      {mixedSigns ? (
        <p className={styles['note']}>
          Some legs push while others pull. Where a leg goes from one to the other its backlash opens; a preload of
          weight or spring keeps it closed.
        </p>
      ) : null}
      {explanation ? <p className={styles['alarm']}>▲ {explanation}</p> : null}
    </>
  );
}

interface ForcesHowProps {
  readonly judged: Judged;
  readonly report: ForceReport;
}

/** The equilibrium with the forces and directions of this pose. */
function ForcesHow({ judged: { mechanism, pose }, report: { forces, wrench } }: ForcesHowProps) {
  const J = jacobian(mechanism, pose);
  return (
    <>
      <p>
        Six equations of rest, Σ fᵢ [uᵢ, (R bᵢ) × uᵢ] = −w, w = {listed(wrench.subarray(0, 3))} N and{' '}
        {listed(wrench.subarray(3))} N mm. Positive pushes the platform along u:
      </p>
      {Array.from(forces, (force, index) => ({ leg: index + 1, force })).map(({ leg, force }) => (
        <p key={leg}>
          leg {leg}: {three(force)} N along {listed(J.subarray(6 * leg - 6, 6 * leg - 3))}
        </p>
      ))}
    </>
  );
}
