import { type KeyboardEvent, useId } from 'react';
import { numberText, roundedText } from '../words/numbers.ts';
import { SPOKEN_UNIT, withUnit } from '../words/units.ts';
import styles from './number-control.module.css';
import { isMovingKey } from './travel.ts';
import { type EntryState, type NumberEntry, useNumberEntry } from './useNumberEntry.ts';

/** Digits behind the point that are more than rounding [mm, deg, N]: what is left of a sum of zeros is none. */
const MOST_DIGITS = 9;

interface FieldBoxProps {
  readonly name: string;
  readonly entry: NumberEntry;
  readonly state: EntryState;
  /** Id of the element that shows the fault. */
  readonly faultId: string;
}

/** The text box of a number: plain numbers, sums with units, keys. */
export function FieldBox({ name, entry, state, faultId }: FieldBoxProps) {
  const { value, unit, decimals, legal } = entry;
  const shown = numberText(value, decimals);
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      state.enter();
    } else if (event.key === 'Escape' && (state.text !== null || state.fault !== null)) {
      event.stopPropagation();
      state.abandon();
    } else state.press(event, true);
  };
  return (
    <input
      className={styles['field']}
      type="text"
      inputMode="text"
      autoComplete="off"
      spellCheck={false}
      role="spinbutton"
      aria-label={name}
      aria-valuenow={value}
      aria-valuemin={legal.min}
      aria-valuemax={legal.max}
      aria-valuetext={`${shown} ${SPOKEN_UNIT[unit]}`.trim()}
      aria-invalid={state.fault !== null}
      aria-describedby={state.fault === null ? undefined : faultId}
      title={`${name}: ${withUnit(roundedText(value, MOST_DIGITS), unit)}`}
      value={state.text ?? shown}
      onChange={(event) => state.type(event.target.value)}
      onKeyDown={onKeyDown}
      onKeyUp={(event) => isMovingKey(event.key) && state.finish()}
      onFocus={(event) => event.target.select()}
      onBlur={state.enter}
    />
  );
}

/** Why an entry was not taken, under the control it belongs to. */
export function FaultLine({
  id,
  state,
  keeps,
}: {
  readonly id: string;
  readonly state: EntryState;
  readonly keeps: string;
}) {
  return (
    <p className={styles['fault']} id={id} role="status">
      {state.fault === null ? null : (
        <>
          <span aria-hidden="true" className={styles['mark']}>
            ▲
          </span>
          {state.fault} Still {keeps}.
        </>
      )}
    </p>
  );
}

interface NumberFieldProps extends NumberEntry {
  /** Full name of the quantity, as it is read out: "Joint 3 y". */
  readonly name: string;
}

/** A number field alone, for grids and tables. */
export function NumberField({ name, ...entry }: NumberFieldProps) {
  const state = useNumberEntry(entry);
  const faultId = useId();
  return (
    <span className={styles['lone']}>
      <FieldBox name={name} entry={entry} state={state} faultId={faultId} />
      <FaultLine id={faultId} state={state} keeps={withUnit(numberText(entry.value, entry.decimals), entry.unit)} />
    </span>
  );
}
