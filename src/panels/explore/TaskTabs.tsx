import { Tabs } from 'radix-ui';
import type { ExploreTask } from '../../state/explore/explore-store.ts';
import { sessionStore } from '../../state/stores.ts';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { HolesSetup } from './HolesSetup.tsx';
import { OptimiserSetup } from './OptimiserSetup.tsx';
import styles from './place.module.css';
import { SweepSetup } from './SweepSetup.tsx';

const TASKS = [
  { id: 'sweep', title: 'Sweep', content: <SweepSetup /> },
  { id: 'holes', title: 'Holes', content: <HolesSetup /> },
  { id: 'optimiser', title: 'Best layout', content: <OptimiserSetup /> },
] as const satisfies readonly { readonly id: ExploreTask; readonly title: string; readonly content: unknown }[];

/** The three things that are done with many layouts, each with its set-up. */
export function TaskTabs() {
  const { explore } = useExploreDesk();
  const task = useExplore((state) => state.task);
  const choose = (id: string) => {
    const chosen = TASKS.find((candidate) => candidate.id === id);
    if (!chosen) return;
    explore.setState({ task: chosen.id });
    sessionStore.setState({ hovered: null });
  };
  return (
    <Tabs.Root className={styles['tasks']} value={task} onValueChange={choose}>
      <Tabs.List className={styles['tabs']} aria-label="What to do with many layouts">
        {TASKS.map(({ id, title }) => (
          <Tabs.Trigger key={id} value={id} className={styles['tab']}>
            {title}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {TASKS.map(({ id, content }) => (
        <Tabs.Content key={id} value={id} className={styles['setup']}>
          {content}
        </Tabs.Content>
      ))}
    </Tabs.Root>
  );
}
