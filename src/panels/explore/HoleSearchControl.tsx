import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { NumberField } from '../../ui/NumberField.tsx';
import { countText } from '../../words/amounts.ts';
import controls from './controls.module.css';
import { useExploreDesk, useHoles } from './desk-context.ts';
import styles from './place.module.css';
import { nothing } from './sweep-fields.ts';

const SEED = {
  unit: '',
  decimals: 0,
  legal: { min: 0, max: 1_000_000, whole: true },
  travel: { min: 0, max: 1000, step: 1 },
  commit: nothing,
  restore: nothing,
} as const;

const ROUNDS = { ...SEED, legal: { min: 1, max: 1000, whole: true }, travel: { min: 1, max: 100, step: 1 } } as const;

/** The search for single joints' holes: seed, length, progress. */
export function HoleSearchControl() {
  const { holes, holesStore } = useExploreDesk();
  const search = useHoles((state) => state.search);
  const seed = useHoles((state) => state.seed);
  const rounds = useHoles((state) => state.rounds);
  const running = search?.status === 'running';
  return (
    <Group title="Single joints, no symmetry">
      <p className={styles['hint']}>
        Searches any hole for each joint by the weights above, from the present layout. Legs keep their order; the
        result is six free points on each plate.
      </p>
      <div className={styles['pair']}>
        <span>Seed</span>
        <NumberField {...SEED} name="Seed of the search" value={seed} preview={(value) => set({ seed: value })} />
        <span>Rounds</span>
        <NumberField
          {...ROUNDS}
          name="Rounds of the search"
          value={rounds}
          preview={(value) => set({ rounds: value })}
        />
      </div>
      <div className={controls['buttons']}>
        {running ? (
          <Button onClick={() => holes.cancelSearch()}>Cancel</Button>
        ) : (
          <Button look="filled" onClick={() => void holes.search()}>
            Search
          </Button>
        )}
        {search?.state ? (
          <span className={controls['count']}>{countText(search.state.layoutsTried)} layouts tried</span>
        ) : null}
      </div>
      {search?.state ? <progress aria-label="Rounds" max={rounds} value={search.state.round} /> : null}
      {search?.status === 'failed' ? <p className={styles['fault']}>▲ {search.failure}</p> : null}
    </Group>
  );

  function set(change: { readonly seed: number } | { readonly rounds: number }): null {
    holesStore.setState(change);
    return null;
  }
}
