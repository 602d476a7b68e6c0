import { useId } from 'react';
import styles from './choice.module.css';

interface ChoiceProps<Value extends string> {
  /** What is chosen, read out and shown before the choices. */
  readonly name: string;
  readonly label: string;
  readonly value: Value;
  readonly options: readonly (readonly [value: Value, words: string])[];
  readonly onChoose: (value: Value) => void;
}

/** One of a few, all in view. */
export function Choice<Value extends string>({ name, label, value, options, onChoose }: ChoiceProps<Value>) {
  const group = useId();
  return (
    <fieldset className={styles['choice']}>
      <legend className="spoken">{name}</legend>
      <span className={styles['label']} aria-hidden="true">
        {label}
      </span>
      <span className={styles['options']}>
        {options.map(([option, words]) => (
          <label key={option} className={styles['option']}>
            <input
              type="radio"
              name={group}
              value={option}
              checked={option === value}
              onChange={() => onChoose(option)}
            />
            <span>{words}</span>
          </label>
        ))}
      </span>
    </fieldset>
  );
}
