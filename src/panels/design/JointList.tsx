import { type KeyboardEvent, memo } from 'react';
import { PAIRS } from '../../document/edits/built-ring.ts';
import { spreadPairs, turnByHoles } from '../../document/edits/edit.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { makeEdit } from '../design-binding.ts';
import { PLATE_WORDS } from '../number-spec.ts';
import styles from './joint-list.module.css';

/** What an arrow key does to the joints: steps of the pair gap and of the turn, in holes. */
const ARROWS: Readonly<Record<string, readonly [spread: number, turn: number]>> = {
  ArrowUp: [1, 0],
  ArrowDown: [-1, 0],
  ArrowLeft: [0, 1],
  ArrowRight: [0, -1],
};

interface JointListProps {
  readonly plate: PlateName;
  /** Hole of each joint, six, as text so that equal lists compare equal: "71 3 23 27 47 51". */
  readonly holes: string;
  readonly onMove: (spread: number, turn: number) => void;
  readonly onPoint: (leg: number | null) => void;
}

/** The six joints in their holes, by pairs; arrow keys and buttons move them hole by hole. */
export const JointList = memo(function JointList({ plate, holes, onMove, onPoint }: JointListProps) {
  const numbers = holes.split(' ');
  const name = PLATE_WORDS[plate];
  const onKeyDown = (event: KeyboardEvent) => {
    const move = ARROWS[event.key];
    if (!move || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    onMove(...move);
  };
  return (
    <div className={styles['joints']}>
      <fieldset
        className={styles['pairs']}
        aria-label={`${name} joints in their holes. Up and down move every pair apart or together, left and right turn the pattern.`}
      >
        {PAIRS[plate].map((pair) => (
          <span key={pair.join()} className={styles['pair']}>
            {pair.map((leg) => (
              <Button
                look="bare"
                key={leg}
                onKeyDown={onKeyDown}
                onFocus={() => onPoint(leg)}
                onBlur={() => onPoint(null)}
                onPointerEnter={() => onPoint(leg)}
                onPointerLeave={() => onPoint(null)}
              >
                <span className="spoken">{name} joint </span>
                <b>{leg}</b>
                <span className="spoken">, hole </span>
                {numbers[leg - 1]}
              </Button>
            ))}
          </span>
        ))}
      </fieldset>
      <div className={styles['moves']}>
        <span>Pairs by one hole</span>
        <Button onClick={() => onMove(-1, 0)} aria-label={`${name} pairs one hole closer`}>
          closer
        </Button>
        <Button onClick={() => onMove(1, 0)} aria-label={`${name} pairs one hole apart`}>
          apart
        </Button>
        <Button
          onClick={() => onMove(0, 1)}
          aria-label={`↺ ${name} one hole counter-clockwise`}
          title="Turn counter-clockwise"
        >
          ↺
        </Button>
        <Button onClick={() => onMove(0, -1)} aria-label={`↻ ${name} one hole clockwise`} title="Turn clockwise">
          ↻
        </Button>
      </div>
    </div>
  );
});

const point = (highlightedLeg: number | null): void => sessionStore.setState({ highlightedLeg });

const movers: Readonly<Record<PlateName, (spread: number, turn: number) => void>> = {
  base: (spread, turn) => moveJoints('base', spread, turn),
  platform: (spread, turn) => moveJoints('platform', spread, turn),
};

function moveJoints(plate: PlateName, spread: number, turn: number): void {
  const name = PLATE_WORDS[plate];
  if (turn !== 0) makeEdit((document) => turnByHoles(document, plate, turn), `${name} turn by one hole`);
  else
    makeEdit(
      (document) => spreadPairs(document, plate, spread),
      `${name} pairs ${spread > 0 ? 'apart' : 'together'} by one hole`,
    );
}

/** Binds the list of joints of one plate. */
export const JointListOfDesign = ({ plate, holes }: Pick<JointListProps, 'plate' | 'holes'>) => (
  <JointList plate={plate} holes={holes} onMove={movers[plate]} onPoint={point} />
);
