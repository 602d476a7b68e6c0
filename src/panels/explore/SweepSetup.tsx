import { Plus, X } from 'lucide-react';
import { useMemo } from 'react';
import type { DesignFault } from '../../document/faults.ts';
import {
  STANDARD_SWEEP,
  SWEEP_VARIABLE_NAMES,
  SWEEP_VARIABLES,
  type SweepDocument,
  type SweepVariable,
  type SweepVariableName,
  validateSweep,
} from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { hasHoles, presentValues } from '../../state/explore/explore-layout.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { NumberField } from '../../ui/NumberField.tsx';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import { Select } from '../../ui/Select.tsx';
import { useDesign } from '../design-binding.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { JointsHint } from './JointsHint.tsx';
import styles from './place.module.css';
import { SweepControl } from './SweepControl.tsx';
import { nothing, OPTION_FIELDS, startingRange, variableField } from './sweep-fields.ts';

/** Fewest and most variables of a sweep on screen. */
const FEWEST = 2;
const MOST = 4;

/** Which layouts to measure, and running it. */
export function SweepSetup() {
  const { explore } = useExploreDesk();
  const setup = useExplore((state) => state.setup);
  const document = useDesign((design) => design);
  const swept = useMemo(() => sweptDesign(document), [document]);
  const faults = useMemo(() => {
    const valid = validateSweep(setup);
    return valid.ok ? [] : valid.fault;
  }, [setup]);
  const change = (part: Partial<SweepDocument>) => explore.setState({ setup: { ...setup, ...part } });
  const replace = (place: number, variable: SweepVariable) =>
    change({ variables: setup.variables.map((old, n) => (n === place ? variable : old)) });
  const unused = SWEEP_VARIABLE_NAMES.filter((name) => !setup.variables.some((variable) => variable.name === name));
  const present = presentValues(document);
  return (
    <>
      {swept.ok ? null : (
        <p className={styles['refusal']} role="alert">
          This design cannot be swept. {swept.fault.map(({ message }) => message).join(' ')}
        </p>
      )}
      {swept.ok && hasHoles(document) ? (
        <p className={styles['hint']}>
          A sweep lets joints sit anywhere on their circles and does not look at the indexed holes; choose among those
          under Holes.
        </p>
      ) : null}
      <JointsHint />
      <Group title="What varies">
        <div className={styles['variables']}>
          {setup.variables.map((variable, place) => (
            <VariableRow
              key={variable.name}
              variable={variable}
              options={[variable.name, ...unused]}
              faults={faultsOf(faults, place)}
              onChange={(next) => replace(place, next)}
              onRename={(name) => replace(place, { name, ...startingRange(name, present, variable.count) })}
              onRemove={
                setup.variables.length > FEWEST
                  ? () => change({ variables: setup.variables.filter((_, n) => n !== place) })
                  : null
              }
            />
          ))}
          {faults
            .filter(({ path }) => path === 'variables')
            .map(({ message }) => (
              <p key={message} className={styles['fault']}>
                ▲ {message}
              </p>
            ))}
          <div className={controls['buttons']}>
            {setup.variables.length < MOST && unused.length > 0 ? (
              <Button
                onClick={() =>
                  change({
                    variables: [...setup.variables, { name: unused[0], ...startingRange(unused[0], present, 5) }],
                  })
                }
              >
                <Plus aria-hidden size={13} /> Add a variable
              </Button>
            ) : null}
            <Button onClick={() => change({ variables: STANDARD_SWEEP.variables })}>Standard sweep</Button>
          </div>
        </div>
      </Group>
      <Group title="What the figures depend on">
        {OPTION_FIELDS.map(({ key, ...field }) => (
          <PairedNumber
            key={key}
            {...field}
            value={setup[key]}
            preview={(value) => {
              change({ [key]: value });
              return null;
            }}
            commit={nothing}
            restore={nothing}
          />
        ))}
      </Group>
      <SweepControl ready={swept.ok && faults.length === 0} />
    </>
  );
}

const faultsOf = (faults: readonly DesignFault[], place: number): readonly DesignFault[] =>
  faults.filter(({ path }) => path.startsWith(`variables[${place}]`));

interface VariableRowProps {
  readonly variable: SweepVariable;
  readonly options: readonly SweepVariableName[];
  readonly faults: readonly DesignFault[];
  readonly onChange: (variable: SweepVariable) => void;
  readonly onRename: (name: SweepVariableName) => void;
  readonly onRemove: (() => void) | null;
}

/** One variable: which, from, to, in how many values. */
function VariableRow({ variable, options, faults, onChange, onRename, onRemove }: VariableRowProps) {
  const { name, from, to, count } = variable;
  const title = columnWords(SWEEP_VARIABLES[name].dimension).name;
  const field = variableField(name);
  const take = (change: Partial<SweepVariable>) => {
    onChange({ ...variable, ...change });
    return null;
  };
  return (
    <fieldset className={styles['variable']} data-fault={faults.length > 0}>
      <legend className="spoken">{title}</legend>
      <Select
        className={controls['select']}
        aria-label="What varies"
        value={name}
        onChange={(event) => {
          const chosen = options.find((option) => option === event.target.value);
          if (chosen) onRename(chosen);
        }}
      >
        {options.map((option) => (
          <option key={option} value={option}>
            {columnWords(SWEEP_VARIABLES[option].dimension).short}
          </option>
        ))}
      </Select>
      <NumberField {...field} name={`${title} from`} value={from} preview={(value) => take({ from: value })} />
      <span className={styles['dash']}>–</span>
      <NumberField {...field} name={`${title} to`} value={to} preview={(value) => take({ to: value })} />
      <span className={styles['unit']}>{field.unit}</span>
      <span className={styles['dash']}>in</span>
      <NumberField
        {...COUNT_FIELD}
        name={`${title}, number of values`}
        value={count}
        preview={(value) => take({ count: value })}
      />
      {onRemove ? (
        <Button look="quiet" aria-label={`Remove ${title}`} onClick={onRemove}>
          <X aria-hidden size={13} />
        </Button>
      ) : (
        <span />
      )}
      {faults.map(({ message }) => (
        <p key={message} className={styles['fault']} role="status">
          ▲ {faultWords(message)}
        </p>
      ))}
    </fieldset>
  );
}

/** The row already says which variable it is. */
const faultWords = (message: string): string =>
  message.replace(/^variables\[\d+\](\.(\w+))? is /, (_, __, key) => (key ? `“${key}” is ` : 'The range is '));

const COUNT_FIELD = {
  unit: '',
  decimals: 0,
  legal: { min: 1, max: 10_000, whole: true },
  travel: { min: 1, max: 100, step: 1 },
  commit: nothing,
  restore: nothing,
} as const;
