import { useEffect, useRef } from 'react';
import { numberText } from '../words/numbers.ts';
import { SPOKEN_UNIT } from '../words/units.ts';
import styles from './number-control.module.css';
import { FINE_SHARE, isMovingKey, onStep, type Travel, widened } from './travel.ts';
import type { EntryState, NumberEntry } from './useNumberEntry.ts';

/** A place on a slider that means something: a limit that is met there. */
export interface Wall {
  readonly at: number;
  readonly says: string;
}

interface SliderProps {
  readonly name: string;
  readonly entry: NumberEntry;
  readonly state: EntryState;
  readonly walls: readonly Wall[];
}

/**
 * A native range input. Its travel is narrower than what the field takes; a value outside of it widens the travel, but never
 * while it is being dragged, so that the thumb stays under the pointer.
 */
export function Slider({ name, entry, state, walls }: SliderProps) {
  const { value, unit, decimals, travel } = entry;
  const input = useRef<HTMLInputElement>(null);
  const held = useRef<Travel | null>(null);
  const { min, max, step } = held.current ?? widened(travel, value);

  const release = useRef(state.finish);
  release.current = () => {
    held.current = null;
    state.finish();
  };
  useEffect(() => {
    const element = input.current;
    if (!element) return;
    // React's onChange is the browser's "input"; the browser's own "change" comes once, when the value is settled
    const onSettled = () => release.current();
    element.addEventListener('change', onSettled);
    return () => element.removeEventListener('change', onSettled);
  }, []);

  return (
    <span className={styles['slider']}>
      <span className={styles['walls']} aria-hidden="true">
        {walls
          .filter(({ at }) => at >= min && at <= max)
          .map(({ at, says }) => (
            <i key={says} title={says} style={{ insetInlineStart: `${((at - min) / (max - min)) * 100}%` }} />
          ))}
      </span>
      <input
        ref={input}
        type="range"
        // the field beside it takes the same keys: both are one stop
        tabIndex={-1}
        aria-label={`${name}, slider`}
        aria-valuetext={`${numberText(value, decimals)} ${SPOKEN_UNIT[unit]}`.trim()}
        min={min}
        max={max}
        step={step * FINE_SHARE}
        value={value}
        onPointerDown={() => {
          held.current = { min, max, step };
        }}
        onChange={(event) => state.move(onStep(Number(event.target.value), step))}
        onPointerUp={() => release.current()}
        onPointerCancel={() => release.current()}
        onKeyDown={(event) => {
          if (event.key === 'Escape') state.abandon();
          else state.press(event, false);
        }}
        onKeyUp={(event) => isMovingKey(event.key) && state.finish()}
        onBlur={() => release.current()}
      />
    </span>
  );
}
