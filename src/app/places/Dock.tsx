import { Tabs } from 'radix-ui';
import type { ReactNode } from 'react';
import { ErrorBoundary } from '../ErrorBoundary.tsx';
import styles from './Dock.module.css';

interface DockProps {
  readonly tabs: readonly { readonly id: string; readonly title: string; readonly content: ReactNode }[];
  readonly shown: string;
  readonly onShow: (id: string) => void;
}

/** What stands below the view, one of a few at a time; its height stays the same, so that the view does not jump. */
export const Dock = ({ tabs, shown, onShow }: DockProps) => (
  <Tabs.Root className={styles['dock']} value={shown} onValueChange={onShow} asChild>
    <section aria-label="Below the view">
      <Tabs.List className={styles['list']} aria-label="Below the view">
        {tabs.map(({ id, title }) => (
          <Tabs.Trigger key={id} value={id} className={styles['tab']}>
            {title}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {tabs.map(({ id, title, content }) => (
        <Tabs.Content key={id} value={id} className={styles['content']} tabIndex={-1}>
          <section className={styles['section']} aria-label={title}>
            <ErrorBoundary part={title}>{content}</ErrorBoundary>
          </section>
        </Tabs.Content>
      ))}
    </section>
  </Tabs.Root>
);
