import { memo, useId } from 'react';
import { numberText } from '../words/numbers.ts';
import { withUnit } from '../words/units.ts';
import { FaultLine, FieldBox } from './NumberField.tsx';
import styles from './number-control.module.css';
import { Slider, type Wall } from './Slider.tsx';
import { type NumberEntry, useNumberEntry } from './useNumberEntry.ts';

export interface PairedNumberProps extends NumberEntry {
  /** Full name, as it is read out: "Base pair gap". */
  readonly name: string;
  /** What stands before the slider: "Pair gap". */
  readonly label: string;
  readonly walls?: readonly Wall[];
}

const NO_WALLS: readonly Wall[] = [];

/** One number: label, slider, field, unit. The field is the one stop of the Tab key; it takes every key that a slider takes. */
export const PairedNumber = memo(function PairedNumber(props: PairedNumberProps) {
  const { name, label, walls = NO_WALLS, ...entry } = props;
  const state = useNumberEntry(entry);
  const faultId = useId();
  return (
    <div className={styles['row']}>
      <span className={styles['label']} title={name}>
        {label}
      </span>
      <Slider name={name} entry={entry} state={state} walls={walls} />
      <FieldBox name={name} entry={entry} state={state} faultId={faultId} />
      <span className={styles['unit']} aria-hidden="true">
        {entry.unit}
      </span>
      <FaultLine id={faultId} state={state} keeps={withUnit(numberText(entry.value, entry.decimals), entry.unit)} />
    </div>
  );
});
