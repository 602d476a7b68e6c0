import type { DesignDocument } from '../../document/design.ts';
import { figure } from '../../words/numbers.ts';
import { cm3Text } from '../../words/reach.ts';
import { percentText, usableLine } from '../../words/usable.ts';
import { useDesign } from '../design-binding.ts';
import { UsableFacts } from '../UsableFacts.tsx';
import { useUsable } from '../usable-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import { useUncountedMeeting } from './use-broken.ts';
import styles from './verdict.module.css';

const floorCount = ({ floors = {} }: DesignDocument): number => Object.keys(floors).length;

/** How much of the reach keeps every floor. */
export function UsableCell(props: VerdictCellProps) {
  const { value, stale, failure } = useUsable();
  const floors = useDesign(floorCount);
  const meeting = useUncountedMeeting();
  const none = value !== null && value.usable === 0;
  return (
    <Cell
      id="usable"
      title={floors === 0 ? 'Usable, no floors set' : `Usable, ${floors} ${floors === 1 ? 'floor' : 'floors'}`}
      stale={stale}
      alarming={none || failure !== null || meeting !== null}
      headline={
        value === null ? (
          failure === null ? (
            '…'
          ) : (
            'Not known'
          )
        ) : none ? (
          <>
            <span className={styles['mark']} aria-hidden="true">
              ✕
            </span>
            Nothing is usable
          </>
        ) : (
          <>
            {cm3Text(value.usable)} <small>{percentText(Math.min(1, value.usable / value.reachable))} of reach</small>
          </>
        )
      }
      line={meeting ? meetingWords(meeting) : value ? usableLine(value) : (failure ?? 'Computing…')}
      {...props}
    />
  );
}

const meetingWords = (words: string): string => `▲ At home ${words}: a floor on clearance leaves such poses out`;

export function UsableWhy() {
  const { value, stale, failure } = useUsable();
  const meeting = useUncountedMeeting();
  if (failure !== null && !value) return <p>▲ {failure}</p>;
  if (!value) return <p>Computing…</p>;
  const { usableAnywhere, errorEstimate, step, homeSide, settled } = value;
  return (
    <>
      <UsableFacts usable={value} stale={stale} />
      <dl className={styles['facts']}>
        <dt>Counted</dt>
        <dd>
          positions that keep every limit and every floor, on home’s side of every singular pose (det J of one sign),
          and connected with home; {cm3Text(usableAnywhere)} keep all but the last
        </dd>
        <dt>Home’s side</dt>
        <dd>{percentText(homeSide)} of the reach, sampled</dd>
        <dt>Error</dt>
        <dd>
          ± {figure(errorEstimate * 100)} % of the usable volume{settled ? '' : '; stopped before that became smaller'}.
          Limits are exact; floors are sampled every {figure(step)} mm along each column and their crossings bisected,
          so a thinner layer can be missed
        </dd>
      </dl>
      {meeting ? <p className={styles['broken']}>{meetingWords(meeting)}.</p> : null}
      <p className={styles['note']}>
        Poses in which bodies meet are left out only under a floor on clearance. Set floors under Floors, beside the
        other judgements.
      </p>
    </>
  );
}
