import { Tooltip } from 'radix-ui';
import type { ComponentProps, ReactNode } from 'react';
import { Button } from '../../ui/Button.tsx';
import styles from './buttons.module.css';

interface IconButtonProps extends Omit<ComponentProps<'button'>, 'aria-label' | 'children' | 'disabled' | 'type'> {
  /** Accessible name, and the tooltip's first part. */
  readonly label: string;
  /** Keys that do the same, as the tooltip shows them. */
  readonly keys?: string;
  readonly children: ReactNode;
  /** Nothing to do at the moment; the button stays in the tab order so that focus is not lost. */
  readonly idle?: boolean;
}

/** A button that is a picture, with its name and keys in a tooltip. */
export function IconButton({ label, keys, children, idle = false, onClick, ...rest }: IconButtonProps) {
  return (
    <Tooltip.Root>
      <Tooltip.Trigger asChild>
        <Button
          look="quiet"
          className={styles['icon']}
          {...rest}
          aria-label={label}
          aria-disabled={idle || undefined}
          onClick={idle ? undefined : onClick}
        >
          {children}
        </Button>
      </Tooltip.Trigger>
      <Tooltip.Portal>
        <Tooltip.Content className={styles['tip']} sideOffset={6} collisionPadding={8}>
          {label}
          {keys && <kbd>{keys}</kbd>}
        </Tooltip.Content>
      </Tooltip.Portal>
    </Tooltip.Root>
  );
}
