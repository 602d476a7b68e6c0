import { memo } from 'react';
import { FREEDOMS, type FreeTravel, type TravelStop } from '../../kinematics/free-travel.ts';
import { LIMIT_WORDS } from '../../kinematics/limits.ts';
import { poseNumbers } from '../../reach/pose-box.ts';
import { degrees } from '../../terms/units.ts';
import { How } from '../../ui/How.tsx';
import { fixedText } from '../../words/numbers.ts';
import { usePresentPose } from '../pose-binding.ts';

interface TravelHowProps {
  readonly travel: readonly FreeTravel[];
}

/** How far each number of the pose can go: how that is found, with the present numbers. */
export const TravelHow = memo(function TravelHow({ travel }: TravelHowProps) {
  return (
    <How name="How the room from here is computed">
      <p>
        One number of the pose moves, the other five stay. It goes in steps of {fixedText(travel[0].step, 2)} mm or{' '}
        {fixedText(degrees(travel[3].step), 1)} deg until a leg or joint is past its limit; that step is then halved 20
        times. An interruption narrower than a step can be missed. Room = value at the stop − present value.
      </p>
      <Stops travel={travel} />
      <p>
        Limits are those of the leg table: leg lengths pin to pin and each joint’s own limit. Bodies that meet and
        singular poses are not looked at here; see Clearance and Curves. Source: the inverse kinematics at every pose,
        sampled.
      </p>
    </How>
  );
});

/** The stops with the present six numbers of the pose; reads them only while it is open. */
function Stops({ travel }: TravelHowProps) {
  const present = poseNumbers(usePresentPose());
  return (
    <ul>
      {travel.map(({ freedom, down, up }, index) => (
        <li key={freedom}>
          {freedom}: {stopWords(down, present[index], index)} and {stopWords(up, present[index], index)}{' '}
          {index < 3 ? 'mm' : 'deg'}
        </li>
      ))}
    </ul>
  );
}

const shown = (value: number, index: number): string => fixedText(index < 3 ? value : degrees(value), 2);

function stopWords(stop: TravelStop | null, present: number, index: number): string {
  if (!stop) return `no stop for ${FREEDOMS[index]} as far as was searched`;
  return `${shown(stop.at, index)} − ${shown(present, index)} = ${shown(stop.at - present, index)} (leg ${stop.leg}, ${LIMIT_WORDS[stop.limit]})`;
}
