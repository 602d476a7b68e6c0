import { Copy } from 'lucide-react';
import { memo, useState } from 'react';
import { useStore } from 'zustand';
import type { PlateName } from '../../kinematics/layout.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { copyText } from '../copy-text.ts';
import { judgementNow, useJudgement } from '../pose-binding.ts';
import { LegRow, type LegRowProps } from './LegRow.tsx';
import { LegsHow, LegsHowText } from './LegsHow.tsx';
import { JOINT_SAYS, jointCell, jointHeading, type LegJoints, legJoints, twistText, warningOf } from './leg-rows.ts';
import styles from './leg-table.module.css';
import { legsAsCsv } from './legs-csv.ts';

/** What a row shows of a leg, in millimetres, degrees and shares. */
function legRowOf(
  leg: LegState,
  { legs }: Mechanism,
  { readings, twists }: LegJoints,
  leadStated: boolean,
): Omit<LegRowProps, 'highlighted' | 'onPoint'> {
  const index = leg.leg - 1;
  const base = jointCell(readings[index].base);
  const platform = jointCell(readings[index].platform);
  return {
    leg: leg.leg,
    length: leg.length,
    stroke: (leg.length - legs.min) / (legs.max - legs.min),
    baseAngles: base.text,
    baseShare: base.share,
    platformAngles: platform.text,
    platformShare: platform.share,
    twist: twists ? twistText(twists[index], leadStated) : null,
    warning: warningOf(leg),
  };
}

interface LegTableViewProps {
  readonly legs: readonly LegState[];
  readonly mechanism: Mechanism;
  readonly joints: LegJoints;
  /** Whether the design says how far a screw advances in one turn. */
  readonly leadStated: boolean;
  readonly highlightedLeg: number | null;
  readonly onPoint: (leg: number | null) => void;
}

/** The six legs at one pose. */
function LegTableView({ legs, mechanism, joints, leadStated, highlightedLeg, onPoint }: LegTableViewProps) {
  const { min, max } = mechanism.legs;
  return (
    <div className={styles['frame']}>
      <Table className={styles['table']} data-twist={joints.twists !== null}>
        <thead>
          <tr>
            <th scope="col" className={styles['leg']}>
              <div>
                Leg <LegsHow>{HOW}</LegsHow>
              </div>
            </th>
            <th scope="col">
              Length <small>mm</small>
            </th>
            <th scope="col">
              Stroke{' '}
              <small>
                {+min.toFixed(1)}–{+max.toFixed(1)}
              </small>
            </th>
            <JointHeading plate="base" joints={joints} />
            <JointHeading plate="platform" joints={joints} />
            {joints.twists ? (
              <th scope="col" title={TWIST_SAYS} className={styles['twist']}>
                Twist <small>{leadStated ? 'deg / mm' : 'deg'}</small>
              </th>
            ) : null}
            <th scope="col" className={styles['last']}>
              <div>
                <span>State</span>
                <CopyButton />
              </div>
            </th>
          </tr>
        </thead>
        <tbody>
          {legs.map((leg) => (
            <LegRow
              key={leg.leg}
              {...legRowOf(leg, mechanism, joints, leadStated)}
              highlighted={leg.leg === highlightedLeg}
              onPoint={onPoint}
            />
          ))}
        </tbody>
      </Table>
    </div>
  );
}

/** Copies what the table shows at that moment. */
const CopyButton = memo(function CopyButton() {
  const [copied, setCopied] = useState<boolean | null>(null);
  const copy = () => {
    const { legs, mechanism, joints } = tableNow();
    return copyText(legsAsCsv(legs, mechanism, joints)).then(setCopied);
  };
  return (
    <Button look="quiet" onClick={copy} aria-label="Copy the table as CSV" title="Copy the table as CSV">
      <Copy size={13} aria-hidden="true" />
      <em>{copied === null ? 'CSV' : copied ? 'Copied' : 'Not allowed'}</em>
    </Button>
  );
});

const TWIST_SAYS =
  'How far the rod has turned in its barrel since home, and what that does to the length when nothing else stops it.';

const PLATES: Readonly<Record<PlateName, string>> = { base: 'Base', platform: 'Platform' };

function JointHeading({ plate, joints }: { readonly plate: PlateName; readonly joints: LegJoints }) {
  const { kind } = joints.shapes[plate][0];
  const { angle, limit } = jointHeading(joints.readings[0][plate], kind);
  return (
    <th scope="col" title={JOINT_SAYS[kind]}>
      {PLATES[plate]} {angle} <small>{limit}</small>
    </th>
  );
}

const point = (highlightedLeg: number | null): void => sessionStore.setState({ highlightedLeg });

/** What the table is about, as it stands now. */
function tableNow() {
  const document = liveDocument(designStore.getState());
  const at = judgementNow();
  return { legs: at.legs, mechanism: at.mechanism, joints: legJoints(at), document };
}

/** How the numbers come about at this moment; follows them only while it is open. */
function HowNow() {
  useJudgement();
  const { legs, mechanism, joints } = tableNow();
  const leg = useStore(sessionStore, ({ highlightedLeg }) => highlightedLeg ?? 1);
  return <LegsHowText leg={legs[leg - 1]} mechanism={mechanism} joints={joints} />;
}

const HOW = <HowNow />;

/** Binds the table of legs to the design on screen and its present pose. */
export const LegTable = memo(function LegTable() {
  useJudgement();
  const { legs, mechanism, joints, document } = tableNow();
  const highlightedLeg = useStore(sessionStore, (state) => state.highlightedLeg);
  return (
    <LegTableView
      legs={legs}
      mechanism={mechanism}
      joints={joints}
      leadStated={document.legs.screwLead_mm !== undefined}
      highlightedLeg={highlightedLeg}
      onPoint={point}
    />
  );
});
