import { Popover } from 'radix-ui';
import { useStore } from 'zustand';
import { sessionStore } from '../../state/stores.ts';
import { DrawGroups } from './DrawGroups.tsx';
import styles from './tool-bar.module.css';
import { useNarrow } from './use-narrow.ts';
import { ViewGroups } from './ViewGroups.tsx';

/** Below this width of the view the tools fold into two menus [CSS px]. */
const FOLD_WIDTH = 620;

/** Views on the left, what is drawn on the right. `solid`: there is a 3D view to turn. */
export function ToolBar({ solid }: { readonly solid: boolean }) {
  const [bar, narrow] = useNarrow(FOLD_WIDTH);
  const lost = useStore(sessionStore, ({ drawing }) => drawing !== 'ready');
  const turning = solid && !lost;
  return (
    <div ref={bar} className={styles['bar']}>
      {turning && (narrow ? <Fold name="View" content={<ViewGroups words />} /> : <ViewGroups />)}
      <span className={styles['space']} />
      {narrow ? <Fold name="Draw" content={<DrawGroups words solid={turning} />} /> : <DrawGroups solid={turning} />}
    </div>
  );
}

interface FoldProps {
  readonly name: string;
  readonly content: React.ReactNode;
}

function Fold({ name, content }: FoldProps) {
  return (
    <Popover.Root>
      <Popover.Trigger className={styles['fold']}>{name}</Popover.Trigger>
      <Popover.Portal>
        <Popover.Content className={styles['sheet']} sideOffset={4} collisionPadding={8} aria-label={name}>
          {content}
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}
