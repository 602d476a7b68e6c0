import { memo, useCallback, useMemo } from 'react';
import { FREEDOMS, type FreeTravel, poseNumber, type TravelStop } from '../../kinematics/free-travel.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { useDerived } from '../../state/use-derived.ts';
import { degrees } from '../../terms/units.ts';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import { stopWords } from '../../words/limits.ts';
import { roundedText } from '../../words/numbers.ts';
import { useDesign } from '../design-binding.ts';
import { presentPoseNow } from '../pose-binding.ts';
import { dropJog, endJog, JOG_LEGAL, jogTo, jogTravel, shownNumber } from './jog.ts';
import styles from './pose.module.css';

const NAMES = ['Tool x', 'Tool y', 'Tool z', 'Roll', 'Pitch', 'Yaw'] as const;

const STORES = [designStore, sessionStore] as const;

const ACTIONS = FREEDOMS.map((_, index) => ({
  preview: (shown: number) => jogTo(index, shown),
  commit: endJog,
  restore: dropJog,
}));

interface JogNumberProps {
  /** Place in FREEDOMS. */
  readonly index: number;
  /** What one arrow key moves [mm or deg]. */
  readonly step: number;
  readonly travel: FreeTravel | null;
}

/** One of the six numbers of the present pose, with the stops that it meets. */
export const JogNumber = memo(function JogNumber({ index, step, travel }: JogNumberProps) {
  const inside = useDerived(
    STORES,
    useCallback(() => poseNumber(presentPoseNow(), index), [index]),
  );
  const min = useDesign((document) => jogTravel(document, index).min);
  const max = useDesign((document) => jogTravel(document, index).max);
  const slider = useMemo(() => ({ min, max, step }), [min, max, step]);
  const walls = useMemo(() => wallsOf(travel, index), [travel, index]);
  return (
    <div className={styles['jog']}>
      <PairedNumber
        name={NAMES[index]}
        label={FREEDOMS[index]}
        value={shownNumber(inside, index)}
        unit={index < 3 ? 'mm' : 'deg'}
        decimals={1}
        legal={JOG_LEGAL[index]}
        travel={slider}
        walls={walls}
        {...ACTIONS[index]}
      />
      {travel ? (
        <p className={styles['room']}>
          <Room stop={travel.down} from={inside} index={index} sign="−" />
          <Room stop={travel.up} from={inside} index={index} sign="+" />
        </p>
      ) : null}
    </div>
  );
});

const shown = (value: number, index: number): number => (index < 3 ? value : degrees(value));

function wallsOf(travel: FreeTravel | null, index: number) {
  if (!travel) return [];
  return [travel.down, travel.up]
    .filter((stop) => stop !== null)
    .map((stop) => ({
      at: shown(stop.at, index),
      says: `${roundedText(shown(stop.at, index), 1)}: ${stopWords(stop.leg, stop.limit)}`,
    }));
}

interface RoomProps {
  readonly stop: TravelStop | null;
  readonly from: number;
  readonly index: number;
  readonly sign: string;
}

function Room({ stop, from, index, sign }: RoomProps) {
  if (!stop) return <span>{sign} no limit found</span>;
  const away = Math.abs(shown(stop.at - from, index)).toFixed(1);
  return (
    <span>
      <b>
        {sign}
        {away}
      </b>{' '}
      {stopWords(stop.leg, stop.limit)}
    </span>
  );
}
