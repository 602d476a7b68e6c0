import { useMemo } from 'react';
import { NUMBER_CHOICES, type NumberChoiceName, WORD_CHOICES, type WordChoiceName } from '../../build/choices.ts';
import { Choice } from '../../ui/Choice.tsx';
import { Group } from '../../ui/Group.tsx';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import styles from './build.module.css';
import { useBuild, useBuildDesk } from './desk-context.ts';

/** What the workshop adds to the design: drills, kerf, brackets, seats. */
export const Inputs = () => (
  <div className={styles['inputs']}>
    <Group title="Plates">
      <WordRow name="holes" />
      <WordRow name="faces" />
      <NumberRow name="hole" />
      <NumberRow name="edge" />
      <NumberRow name="kerf" />
    </Group>
    <Group title="Brackets">
      <WordRow name="bolts" />
      <NumberRow name="block" />
      <NumberRow name="boltSpacing" />
    </Group>
    <Group title="Seats" startsFolded>
      <NumberRow name="ball" />
      <NumberRow name="rim" />
      <NumberRow name="neck" />
      <NumberRow name="standoff" />
    </Group>
  </div>
);

function NumberRow({ name }: { readonly name: NumberChoiceName }) {
  const desk = useBuildDesk();
  const value = useBuild((state) => state.choices[name]);
  const { words, says, unit, min, max } = NUMBER_CHOICES[name];
  // a slider that goes a little past what stands; the field takes all that is allowed
  const most = unit === 'deg' ? max : Math.min(max, Math.max(10, 10 ** Math.ceil(Math.log10(Math.max(value, min)))));
  const actions = useMemo(
    () => ({
      preview: (wanted: number) => {
        desk.choose({ [name]: wanted });
        return null;
      },
      commit: () => undefined,
      restore: () => undefined,
    }),
    [desk, name],
  );
  return (
    <div title={says}>
      <PairedNumber
        name={words}
        label={words}
        value={value}
        unit={unit}
        decimals={unit === 'deg' ? 0 : 1}
        legal={{ min, max }}
        travel={{ min: unit === 'deg' ? min : 0, max: most, step: unit === 'deg' ? 1 : 0.1 }}
        {...actions}
      />
    </div>
  );
}

function WordRow({ name }: { readonly name: WordChoiceName }) {
  const desk = useBuildDesk();
  const value: string = useBuild((state) => state.choices[name]);
  const { words, says, among, shown } = WORD_CHOICES[name];
  const labels: Readonly<Record<string, string>> = shown;
  const known: readonly string[] = among;
  return (
    <div title={says}>
      <Choice
        name={words}
        label={words}
        value={value}
        options={known.map((word) => [word, labels[word]] as const)}
        onChoose={(word) => desk.choose({ [name]: word })}
      />
    </div>
  );
}
