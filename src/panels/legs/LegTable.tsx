import { Copy } from 'lucide-react';
import { memo, useState } from 'react';
import { useStore } from 'zustand';
import { degrees } from '../../document/units.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { compiledDesign } from '../../state/derived.ts';
import { sessionStore } from '../../state/stores.ts';
import { copyText } from '../copy-text.ts';
import { useDesign } from '../design-binding.ts';
import { useJudgement } from '../pose-binding.ts';
import { LegRow, type LegRowProps } from './LegRow.tsx';
import styles from './leg-table.module.css';
import { legsAsCsv } from './legs-csv.ts';

/** What a row shows of a leg, in millimetres, degrees and shares. */
export function legRowOf(leg: LegState, { legs, tiltLimit }: Mechanism): Omit<LegRowProps, 'highlighted' | 'onPoint'> {
  return {
    leg: leg.leg,
    length: leg.length,
    stroke: (leg.length - legs.min) / (legs.max - legs.min),
    baseTilt: degrees(leg.baseTilt),
    baseShare: leg.baseTilt / tiltLimit.base,
    platformTilt: degrees(leg.platformTilt),
    platformShare: leg.platformTilt / tiltLimit.platform,
    warning: leg.violations.map((limit) => WARNINGS[limit]).join(', '),
  };
}

const WARNINGS = {
  legTooShort: 'too short',
  legTooLong: 'too long',
  baseJoint: 'base tilt over',
  platformJoint: 'platform tilt over',
} as const;

interface LegTableViewProps {
  readonly legs: readonly LegState[];
  readonly mechanism: Mechanism;
  readonly highlightedLeg: number | null;
  readonly onPoint: (leg: number | null) => void;
}

/** The six legs at one pose. */
export function LegTableView({ legs, mechanism, highlightedLeg, onPoint }: LegTableViewProps) {
  const [copied, setCopied] = useState<boolean | null>(null);
  const { min, max } = mechanism.legs;
  const limit = (angle: number) => `≤ ${+degrees(angle).toFixed(1)}°`;
  const copy = () => copyText(legsAsCsv(legs, mechanism)).then(setCopied);
  return (
    <div className={styles['frame']}>
      <table className={styles['table']}>
        <thead>
          <tr>
            <th scope="col">Leg</th>
            <th scope="col">
              Length <small>mm</small>
            </th>
            <th scope="col">
              Stroke{' '}
              <small>
                {+min.toFixed(1)}–{+max.toFixed(1)}
              </small>
            </th>
            <th scope="col">
              Base tilt <small>{limit(mechanism.tiltLimit.base)}</small>
            </th>
            <th scope="col">
              Platform tilt <small>{limit(mechanism.tiltLimit.platform)}</small>
            </th>
            <th scope="col" className={styles['last']}>
              <div>
                <span>State</span>
                <button type="button" onClick={copy} aria-label="Copy the table as CSV" title="Copy the table as CSV">
                  <Copy size={13} aria-hidden="true" />
                  <em>{copied === null ? 'CSV' : copied ? 'Copied' : 'Not allowed'}</em>
                </button>
              </div>
            </th>
          </tr>
        </thead>
        <tbody>
          {legs.map((leg) => (
            <LegRow
              key={leg.leg}
              {...legRowOf(leg, mechanism)}
              highlighted={leg.leg === highlightedLeg}
              onPoint={onPoint}
            />
          ))}
        </tbody>
      </table>
    </div>
  );
}

const point = (highlightedLeg: number | null): void => sessionStore.setState({ highlightedLeg });

/** Binds the table of legs to the design on screen and its present pose. */
export const LegTable = memo(function LegTable() {
  const mechanism = useDesign((document) => compiledDesign(document).mechanism);
  const { legs } = useJudgement();
  const highlightedLeg = useStore(sessionStore, (state) => state.highlightedLeg);
  return <LegTableView legs={legs} mechanism={mechanism} highlightedLeg={highlightedLeg} onPoint={point} />;
});
