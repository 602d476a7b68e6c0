import { useMemo } from 'react';
import { useStore } from 'zustand';
import { boxFromHome, reachFromHome } from '../../reach/columns/reach-measure.ts';
import { sessionStore } from '../../state/stores.ts';
import { degrees, radians } from '../../terms/units.ts';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import { sentence } from '../../words/firmness.ts';
import { figure, roundedText } from '../../words/numbers.ts';
import { bindingWords, cm3Text, emptyWords, litresText } from '../../words/reach.ts';
import { useTiltedReach } from '../reach-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import { BoxFacts, Shares } from './ReachReason.tsx';
import styles from './verdict.module.css';

/** The range of orientations in words: "tilts up to 10 deg" or with yaw. */
function useRangeWords(): string {
  const tilt = useStore(sessionStore, (state) => state.tiltRange);
  const yaw = useStore(sessionStore, (state) => state.yawRange);
  const turned = yaw > 0 ? ` and yaw within ±${roundedText(degrees(yaw), 1)} deg` : '';
  return `tilts up to ${roundedText(degrees(tilt), 1)} deg${turned}`;
}

/** Where the tool point reaches whatever the orientation within the tilt range. */
export function TiltedCell(props: VerdictCellProps) {
  const { value, stale, failure } = useTiltedReach();
  const range = useRangeWords();
  return (
    <Cell
      id="tilted"
      title={`Reach, ${range}`}
      stale={stale}
      alarming={value?.empty != null}
      headline={
        value ? (
          value.empty ? (
            <>
              <span className={styles['mark']} aria-hidden="true">
                ✕
              </span>
              Nothing is reachable
            </>
          ) : (
            <>
              {cm3Text(reachFromHome(value))} <small>{litresText(reachFromHome(value))}</small>
            </>
          )
        ) : failure ? (
          'Not computed'
        ) : (
          '…'
        )
      }
      line={
        value
          ? value.empty
            ? emptyWords(value.empty)
            : `${sentence(bindingWords(value.boundary))}; sampled`
          : (failure ?? 'Computing…')
      }
      {...props}
    />
  );
}

const TILT_LEGAL = { min: 0, max: 90 } as const;
const YAW_LEGAL = { min: 0, max: 180 } as const;
const TILT_TRAVEL = { min: 0, max: 45, step: 1 } as const;
const YAW_TRAVEL = { min: 0, max: 90, step: 1 } as const;

/** Changes of a range of the session; none of them is an undo step. */
function rangeActions(which: 'tiltRange' | 'yawRange') {
  let before: number | null = null;
  return {
    preview: (wanted: number) => {
      before ??= sessionStore.getState()[which];
      sessionStore.setState({ [which]: radians(wanted) });
      return null;
    },
    commit: () => {
      before = null;
    },
    restore: () => {
      if (before !== null) sessionStore.setState({ [which]: before });
      before = null;
    },
  };
}

function RangeNumber({ which }: { readonly which: 'tiltRange' | 'yawRange' }) {
  const value = useStore(sessionStore, (state) => state[which]);
  const tilt = which === 'tiltRange';
  const actions = useMemo(() => rangeActions(which), [which]);
  return (
    <PairedNumber
      name={tilt ? 'Tilt range' : 'Yaw range'}
      label={tilt ? 'Tilt up to' : 'Yaw within ±'}
      value={Number(degrees(value).toFixed(9))}
      unit="deg"
      decimals={1}
      legal={tilt ? TILT_LEGAL : YAW_LEGAL}
      travel={tilt ? TILT_TRAVEL : YAW_TRAVEL}
      {...actions}
    />
  );
}

export function TiltedWhy() {
  const { value, failure } = useTiltedReach();
  const box = value && boxFromHome(value);
  return (
    <>
      <div className={styles['setting']}>
        <RangeNumber which="tiltRange" />
        <RangeNumber which="yawRange" />
      </div>
      {failure ? <p>▲ {failure}</p> : null}
      {value?.empty ? <p>▲ {emptyWords(value.empty)}</p> : null}
      {value && !value.empty ? (
        <dl className={styles['facts']}>
          <dt>Volume</dt>
          <dd>
            <b>{cm3Text(reachFromHome(value))}</b>: positions connected with home at which every one of{' '}
            {value.sampledOrientations} sampled orientations keeps all limits
          </dd>
          <dt>Sampling</dt>
          <dd>
            the last doubling of the orientations took {figure(value.samplingChange * 100)} % away
            {value.samplingSettled ? '' : '; stopped before that became small'}
          </dd>
          {box ? <BoxFacts bounds={box} /> : null}
          <dt>Boundary</dt>
          <dd>
            {sentence(bindingWords(value.boundary))}
            <Shares boundary={value.boundary} />
          </dd>
        </dl>
      ) : null}
      <p className={styles['note']}>
        R = home orientation, then a lean about a level axis of the platform in any direction, then the yaw. Sampled at
        the middle, on two rings of leans and over the yaw range, so the true reach may be a little smaller.
      </p>
    </>
  );
}
