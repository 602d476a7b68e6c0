import type { Clearance } from '../../kinematics/clearance.ts';
import { Explained, Figure } from '../../ui/Figure.tsx';
import { Group } from '../../ui/Group.tsx';
import { Table } from '../../ui/Table.tsx';
import { listed, three } from '../../words/numbers.ts';
import styles from './judge.module.css';
import { KeepOutEditor } from './KeepOutEditor.tsx';
import { ShowNearest } from './ShowNearest.tsx';
import { useJudged } from './useJudged.ts';

/** Pairs listed, nearest first. */
const LISTED = 4;

/** What comes nearest to what. */
export const ClearanceGroup = () => (
  <Group title="Clearance" brief={<Brief />} startsFolded>
    <ShowNearest />
    <Results />
    <KeepOutEditor />
  </Group>
);

const distanceText = ({ distance }: Clearance): string => (distance > 0 ? `${three(distance)} mm` : 'they meet');

function Brief() {
  const report = useJudged().at.clearance;
  if (!report.ok || !report.value.smallest) return null;
  const { smallest } = report.value;
  return (
    <>
      {smallest.distance > 0 ? three(smallest.distance) : `▲ ${smallest.a} meets ${smallest.b}`}
      {smallest.distance > 0 ? ' mm' : ''}
    </>
  );
}

function Results() {
  const judged = useJudged();
  const report = judged.at.clearance;
  if (!report.ok) return <p className={styles['alarm']}>▲ {report.fault.message}</p>;
  const { smallest, pairs } = report.value;
  if (!smallest) return <p className={styles['note']}>Nothing here can meet.</p>;
  const { plates } = judged.inputs.clearance;
  const next = pairs.slice(1, LISTED);
  return (
    <>
      <Figure
        label={`${smallest.a} to ${smallest.b}`}
        value={distanceText(smallest)}
        alarming={smallest.distance <= 0}
        how={
          <p>
            Exact distance of the two surfaces, legs as round-ended rods (barrel and rod each with its own diameter).{' '}
            {smallest.distance > 0
              ? `Nearest points at ${listed(smallest.onA)} and ${listed(smallest.onB)} mm, base frame.`
              : 'They reach into each other here.'}{' '}
            Next to its own joint a leg is not checked against its plate.
          </p>
        }
      />
      <Explained title="Next nearest" how={<PairsHow pairs={next} />}>
        {(titleId) => (
          <Table className={styles['pairs']} aria-labelledby={titleId}>
            <tbody>
              {next.map((pair) => (
                <tr key={`${pair.a} ${pair.b}`}>
                  <th scope="row">
                    {pair.a} to {pair.b}
                  </th>
                  <td>{distanceText(pair)}</td>
                </tr>
              ))}
            </tbody>
          </Table>
        )}
      </Explained>
      {judged.inputs.assumed.plates ? (
        <p className={styles['note']}>
          The design states no plates: closed discs are assumed, {three(plates.base?.thickness ?? 0)} and{' '}
          {three(plates.platform?.thickness ?? 0)} mm thick, that reach one barrel diameter past the joints.
        </p>
      ) : null}
    </>
  );
}

/** Where the listed pairs are nearest. */
const PairsHow = ({ pairs }: { readonly pairs: readonly Clearance[] }) => (
  <>
    <p>Exact distance of the two surfaces of each pair, at the points given, base frame:</p>
    {pairs.map((pair) => (
      <p key={`${pair.a} ${pair.b}`}>
        {pair.a} to {pair.b}: {distanceText(pair)}
        {pair.distance > 0 ? `, from ${listed(pair.onA)} to ${listed(pair.onB)} mm` : ''}
      </p>
    ))}
  </>
);
