import { Check, SunMoon } from 'lucide-react';
import { DropdownMenu } from 'radix-ui';
import { useStore } from 'zustand';
import type { Preferences } from '../../state/session/preferences-store.ts';
import { preferencesStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import styles from './buttons.module.css';

const THEMES = [
  { value: 'system', label: 'As the system' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
] as const satisfies readonly { readonly value: Preferences['theme']; readonly label: string }[];

export function ThemeMenu() {
  const theme = useStore(preferencesStore, (state) => state.theme);
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger asChild>
        <Button look="quiet" className={styles['icon']} aria-label="Theme" title="Theme">
          <SunMoon aria-hidden />
        </Button>
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={styles['menu']} align="end" sideOffset={4} collisionPadding={8}>
          <DropdownMenu.RadioGroup value={theme}>
            {THEMES.map(({ value, label }) => (
              <DropdownMenu.RadioItem
                key={value}
                className={styles['item']}
                value={value}
                onSelect={() => preferencesStore.setState({ theme: value })}
              >
                <span className={styles['mark']}>
                  <DropdownMenu.ItemIndicator>
                    <Check aria-hidden size={14} />
                  </DropdownMenu.ItemIndicator>
                </span>
                {label}
              </DropdownMenu.RadioItem>
            ))}
          </DropdownMenu.RadioGroup>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
