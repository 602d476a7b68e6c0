import { CircleQuestionMark } from 'lucide-react';
import { Popover } from 'radix-ui';
import type { ReactNode } from 'react';
import { Button } from './Button.tsx';
import styles from './how.module.css';

interface HowProps {
  /** What is explained, read out: "How the curves are computed". */
  readonly name: string;
  readonly children: ReactNode;
}

/** Opens how a picture or table was computed, over the page where there is no room beside it. */
export const How = ({ name, children }: HowProps) => (
  <Popover.Root>
    <Popover.Trigger asChild>
      <Button look="quiet" className={styles['trigger']} aria-label={name} title="How computed">
        <CircleQuestionMark size={15} aria-hidden="true" />
      </Button>
    </Popover.Trigger>
    <Popover.Portal>
      <Popover.Content
        className={styles['content']}
        side="top"
        align="end"
        sideOffset={4}
        collisionPadding={8}
        aria-label={name}
      >
        {children}
      </Popover.Content>
    </Popover.Portal>
  </Popover.Root>
);
