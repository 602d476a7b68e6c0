import { Tabs } from 'radix-ui';
import type { ReactNode } from 'react';
import { ErrorBoundary } from '../ErrorBoundary.tsx';
import styles from './SheetTabs.module.css';

interface SheetTabsProps {
  readonly sheets: readonly { readonly id: string; readonly title: string; readonly content: ReactNode }[];
  readonly shown: string;
  readonly onShow: (id: string) => void;
}

/** Panels behind tabs, where they do not fit side by side. */
export function SheetTabs({ sheets, shown, onShow }: SheetTabsProps) {
  const known = sheets.some(({ id }) => id === shown) ? shown : sheets[0]?.id;
  return (
    <Tabs.Root className={styles['tabs']} value={known ?? ''} onValueChange={onShow}>
      <Tabs.List className={styles['list']} aria-label="Panels">
        {sheets.map(({ id, title }) => (
          <Tabs.Trigger key={id} value={id} className={styles['tab']}>
            {title}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {sheets.map(({ id, title, content }) => (
        <Tabs.Content key={id} value={id} className={styles['content']}>
          <ErrorBoundary part={title}>{content}</ErrorBoundary>
        </Tabs.Content>
      ))}
    </Tabs.Root>
  );
}
