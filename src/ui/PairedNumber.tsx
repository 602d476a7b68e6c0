import { memo, useId } from 'react';
import { numberText } from '../words/numbers.ts';
import { withUnit } from '../words/units.ts';
import { Button } from './Button.tsx';
import { FaultLine, FieldBox } from './NumberField.tsx';
import styles from './number-control.module.css';
import { Slider, type Wall } from './Slider.tsx';
import { type NumberEntry, useNumberEntry } from './useNumberEntry.ts';

export interface PairedNumberProps extends NumberEntry {
  /** Full name, as it is read out: "Base pair gap". */
  readonly name: string;
  /** What stands before the slider: "Pair gap". */
  readonly label: string;
  /** Step of the - and + buttons; left out: no buttons. */
  readonly buttonStep?: number;
  readonly walls?: readonly Wall[];
}

const NO_WALLS: readonly Wall[] = [];

/** One number: label, slider, field, unit, and - and + buttons where asked for. */
export const PairedNumber = memo(function PairedNumber(props: PairedNumberProps) {
  const { name, label, buttonStep, walls = NO_WALLS, ...entry } = props;
  const state = useNumberEntry(entry);
  const faultId = useId();
  const nudge = (steps: number) => {
    state.move(Number((entry.value + steps * (buttonStep ?? 0)).toPrecision(12)));
    state.finish();
  };
  const stepWords = buttonStep === undefined ? '' : withUnit(String(buttonStep), entry.unit);
  return (
    <div className={styles['row']} data-buttons={buttonStep !== undefined}>
      <span className={styles['label']} title={name}>
        {label}
      </span>
      {buttonStep === undefined ? null : (
        <Button className={styles['nudge']} aria-label={`${name} minus ${stepWords}`} onClick={() => nudge(-1)}>
          −
        </Button>
      )}
      <Slider name={name} entry={entry} state={state} walls={walls} />
      {buttonStep === undefined ? null : (
        <Button className={styles['nudge']} aria-label={`${name} plus ${stepWords}`} onClick={() => nudge(1)}>
          +
        </Button>
      )}
      <FieldBox name={name} entry={entry} state={state} faultId={faultId} />
      <span className={styles['unit']} aria-hidden="true">
        {entry.unit}
      </span>
      <FaultLine id={faultId} state={state} keeps={withUnit(numberText(entry.value, entry.decimals), entry.unit)} />
    </div>
  );
});
