import { Tooltip } from 'radix-ui';
import type { ReactNode } from 'react';
import { Button } from '../../ui/Button.tsx';
import styles from './tool-bar.module.css';

interface ToolButtonProps {
  readonly icon: ReactNode;
  /** Accessible name; the tooltip, or with `words` the text beside the picture. */
  readonly name: string;
  /** Key that does the same while the view has the focus. */
  readonly hint?: string;
  /** On or off, for tools that stay on; left out for those that act once. */
  readonly pressed?: boolean;
  readonly words: boolean;
  readonly onPress: () => void;
}

/** One tool: a picture, with its name beside it where there is room or in a tooltip where there is not. */
export function ToolButton({ icon, name, hint, pressed, words, onPress }: ToolButtonProps) {
  const button = (
    <Button
      look="bare"
      className={styles['tool']}
      data-words={words || undefined}
      aria-label={words ? undefined : name}
      aria-pressed={pressed}
      onClick={onPress}
    >
      {icon}
      {words && <span>{name}</span>}
    </Button>
  );
  if (words) return button;
  return (
    <Tooltip.Root>
      <Tooltip.Trigger asChild>{button}</Tooltip.Trigger>
      <Tooltip.Portal>
        <Tooltip.Content className={styles['tip']} sideOffset={6} collisionPadding={8}>
          {name}
          {hint && <kbd>{hint}</kbd>}
        </Tooltip.Content>
      </Tooltip.Portal>
    </Tooltip.Root>
  );
}
