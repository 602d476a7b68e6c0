import type { ColumnName } from '../../explore/layout-table.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { Select } from '../../ui/Select.tsx';
import styles from './controls.module.css';

interface ColumnSelectProps<Name extends ColumnName> {
  /** What is chosen, as it is read out. */
  readonly label: string;
  readonly value: Name;
  readonly options: readonly Name[];
  readonly onChoose: (name: Name) => void;
  readonly short?: boolean;
}

/** Chooses a dimension or figure by its name. */
export function ColumnSelect<Name extends ColumnName>(props: ColumnSelectProps<Name>) {
  const { label, value, options, onChoose, short = false } = props;
  return (
    <Select
      className={styles['select']}
      aria-label={label}
      value={value}
      onChange={(event) => {
        const chosen = options.find((option) => option === event.target.value);
        if (chosen !== undefined) onChoose(chosen);
      }}
    >
      {options.map((option) => (
        <option key={option} value={option}>
          {short ? columnWords(option).short : columnWords(option).name}
        </option>
      ))}
    </Select>
  );
}
