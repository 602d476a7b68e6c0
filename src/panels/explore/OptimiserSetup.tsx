import { Plus, X } from 'lucide-react';
import { useMemo } from 'react';
import { SWEEP_VARIABLE_NAMES, SWEEP_VARIABLES, type SweepVariableName } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { AMOUNTS, betterOf, columnWords } from '../../state/explore/explore-columns.ts';
import { presentValues } from '../../state/explore/explore-layout.ts';
import { type BoundChoice, optimiserFault } from '../../state/explore/explore-optimiser.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { NumberField } from '../../ui/NumberField.tsx';
import { Select } from '../../ui/Select.tsx';
import { useDesign } from '../design-binding.ts';
import { ColumnSelect } from './ColumnSelect.tsx';
import controls from './controls.module.css';
import { useExploreDesk, useOptimiser } from './desk-context.ts';
import { JointsHint } from './JointsHint.tsx';
import styles from './place.module.css';
import { nothing, startingRange, variableField } from './sweep-fields.ts';

const PLAIN = { unit: '', decimals: 0, commit: nothing, restore: nothing } as const;
const SEED = {
  ...PLAIN,
  legal: { min: 0, max: 1_000_000, whole: true },
  travel: { min: 0, max: 1000, step: 1 },
} as const;
const ROUNDS = { ...PLAIN, legal: { min: 1, max: 2000, whole: true }, travel: { min: 1, max: 200, step: 1 } } as const;
const WEIGHT = { ...PLAIN, legal: { min: 0, max: 100 }, travel: { min: 0, max: 10, step: 1 } } as const;
const LIMIT = { ...PLAIN, legal: { min: -1e12, max: 1e12 }, travel: { min: 0, max: 1000, step: 0.01 } } as const;

/** What the optimiser may change, what it aims at and what it must keep. */
export function OptimiserSetup() {
  const { optimiser, optimiserStore } = useExploreDesk();
  const state = useOptimiser((whole) => whole);
  const document = useDesign((design) => design);
  const swept = useMemo(() => sweptDesign(document), [document]);
  const fault = optimiserFault(state);
  const running = state.run?.status === 'running';
  return (
    <>
      {swept.ok ? null : (
        <p className={styles['refusal']} role="alert">
          This design cannot be searched. {swept.fault.map(({ message }) => message).join(' ')}
        </p>
      )}
      <p className={styles['hint']}>Tilt range, firmness floor and dead length are those set under Sweep.</p>
      <JointsHint />
      <FreeVariables />
      <Goals />
      <Bounds />
      <Group title="Search">
        <div className={styles['pair']}>
          <span>Seed</span>
          <NumberField {...SEED} name="Seed of the optimiser" value={state.seed} preview={(seed) => set({ seed })} />
          <span>Rounds</span>
          <NumberField
            {...ROUNDS}
            name="Rounds of the optimiser"
            value={state.rounds}
            preview={(rounds) => set({ rounds })}
          />
        </div>
        {fault ? (
          <p className={styles['fault']} role="status">
            ▲ {fault}
          </p>
        ) : null}
        <div className={controls['buttons']}>
          {running ? (
            <Button onClick={() => optimiser.cancel()}>Cancel</Button>
          ) : (
            <Button look="filled" disabled={fault !== null || !swept.ok} onClick={() => void optimiser.start()}>
              Look for the best
            </Button>
          )}
        </div>
      </Group>
    </>
  );

  function set(change: { readonly seed: number } | { readonly rounds: number }): null {
    optimiserStore.setState(change);
    return null;
  }
}

function FreeVariables() {
  const { optimiserStore } = useExploreDesk();
  const free = useOptimiser((state) => state.free);
  const document = useDesign((design) => design);
  const unused = SWEEP_VARIABLE_NAMES.filter((name) => !free.some((variable) => variable.name === name));
  const change = (place: number, part: { readonly from: number } | { readonly to: number }): null => {
    optimiserStore.setState({ free: free.map((old, n) => (n === place ? { ...old, ...part } : old)) });
    return null;
  };
  const add = (name: (typeof unused)[number]) => {
    const { from, to } = startingRange(name, presentValues(document), 2);
    optimiserStore.setState({ free: [...free, { name, from, to }] });
  };
  return (
    <Group title="What may change">
      {free.map(({ name, from, to }, place) => {
        const title = columnWords(SWEEP_VARIABLES[name].dimension).name;
        const field = variableField(name);
        return (
          <div key={name} className={styles['variable']} data-kind="free">
            <span>{title}</span>
            <NumberField
              {...field}
              name={`${title} from`}
              value={from}
              preview={(value) => change(place, { from: value })}
            />
            <span className={styles['dash']}>–</span>
            <NumberField {...field} name={`${title} to`} value={to} preview={(value) => change(place, { to: value })} />
            <span className={styles['unit']}>{field.unit}</span>
            <Remove
              what={title}
              onRemove={() => optimiserStore.setState({ free: free.filter((_, n) => n !== place) })}
            />
          </div>
        );
      })}
      {unused.length > 0 ? (
        <AddChoice label="Free a variable" names={unused} words={variableWords} onAdd={add} />
      ) : null}
    </Group>
  );
}

const variableWords = (name: SweepVariableName): string => columnWords(SWEEP_VARIABLES[name].dimension).name;

function Goals() {
  const { optimiserStore } = useExploreDesk();
  const goals = useOptimiser((state) => state.goals);
  const unused = AMOUNTS.filter((name) => !goals.some(({ figure }) => figure === name));
  return (
    <Group title="Goals">
      {goals.map(({ figure, weight }, place) => (
        <div key={figure} className={styles['variable']} data-kind="goal">
          <ColumnSelect
            label="Goal"
            value={figure}
            options={[figure, ...unused]}
            onChoose={(name) =>
              optimiserStore.setState({ goals: goals.map((old, n) => (n === place ? { ...old, figure: name } : old)) })
            }
          />
          <span className={styles['dash']}>{betterOf(figure)}, weight</span>
          <NumberField
            {...WEIGHT}
            name={`Weight of ${columnWords(figure).inWords}`}
            value={weight}
            preview={(value) => {
              optimiserStore.setState({
                goals: goals.map((old, n) => (n === place ? { ...old, weight: value } : old)),
              });
              return null;
            }}
          />
          <Remove
            what={columnWords(figure).name}
            onRemove={() => optimiserStore.setState({ goals: goals.filter((_, n) => n !== place) })}
          />
        </div>
      ))}
      <AddChoice
        label="Add a goal"
        names={unused}
        words={(name) => columnWords(name).name}
        onAdd={(figure) => optimiserStore.setState({ goals: [...goals, { figure, weight: 1 }] })}
      />
      {goals.length > 1 ? (
        <p className={styles['hint']}>Each figure counts in units of the present design's own.</p>
      ) : null}
    </Group>
  );
}

function Bounds() {
  const { optimiserStore } = useExploreDesk();
  const bounds = useOptimiser((state) => state.bounds);
  const replace = (place: number, part: Partial<BoundChoice>): null => {
    optimiserStore.setState({ bounds: bounds.map((old, n) => (n === place ? { ...old, ...part } : old)) });
    return null;
  };
  return (
    <Group title="Bounds">
      {bounds.map(({ id, figure, kind, value }, place) => (
        <div key={id} className={styles['variable']} data-kind="bound">
          <ColumnSelect
            label="Bounded figure"
            short
            value={figure}
            options={AMOUNTS}
            onChoose={(name) => replace(place, { figure: name })}
          />
          <Select
            className={controls['select']}
            aria-label="Kind of bound"
            value={kind}
            onChange={(event) => replace(place, { kind: event.target.value === 'atMost' ? 'atMost' : 'atLeast' })}
          >
            <option value="atLeast">≥</option>
            <option value="atMost">≤</option>
          </Select>
          <NumberField
            {...LIMIT}
            name={`Bound of ${columnWords(figure).inWords}`}
            value={value}
            preview={(next) => replace(place, { value: next })}
          />
          <span className={styles['unit']}>{columnWords(figure).unit}</span>
          <Remove
            what={`the bound of ${columnWords(figure).inWords}`}
            onRemove={() => optimiserStore.setState({ bounds: bounds.filter((_, n) => n !== place) })}
          />
        </div>
      ))}
      <AddChoice
        label="Add a bound"
        names={AMOUNTS}
        words={(name) => columnWords(name).name}
        onAdd={(figure) => optimiserStore.setState({ bounds: [...bounds, startingBound(bounds, figure)] })}
      />
      <p className={styles['hint']}>A layout must also stand at home and must not be singular at every pose.</p>
    </Group>
  );
}

const startingBound = (bounds: readonly BoundChoice[], figure: BoundChoice['figure']): BoundChoice => ({
  id: 1 + Math.max(0, ...bounds.map(({ id }) => id)),
  figure,
  kind: betterOf(figure) === 'more' ? 'atLeast' : 'atMost',
  value: betterOf(figure) === 'more' ? 0 : 10,
});

function Remove({ what, onRemove }: { readonly what: string; readonly onRemove: () => void }) {
  return (
    <Button look="quiet" aria-label={`Remove ${what}`} onClick={onRemove}>
      <X aria-hidden size={13} />
    </Button>
  );
}

interface AddChoiceProps<Name extends string> {
  readonly label: string;
  readonly names: readonly Name[];
  readonly words: (name: Name) => string;
  readonly onAdd: (name: Name) => void;
}

function AddChoice<Name extends string>({ label, names, words, onAdd }: AddChoiceProps<Name>) {
  return (
    <label className={controls['add']}>
      <Plus aria-hidden size={13} />
      <Select
        className={controls['select']}
        aria-label={label}
        value=""
        onChange={(event) => {
          const chosen = names.find((name) => name === event.target.value);
          if (chosen !== undefined) onAdd(chosen);
        }}
      >
        <option value="">{label}</option>
        {names.map((name) => (
          <option key={name} value={name}>
            {words(name)}
          </option>
        ))}
      </Select>
    </label>
  );
}
