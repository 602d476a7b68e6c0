import { useStore } from 'zustand';
import { type StandardView, wishView } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import {
  FIT_ICON,
  FRONT_ICON,
  ISOMETRIC_ICON,
  PARALLEL_ICON,
  PERSPECTIVE_ICON,
  RIGHT_ICON,
  TOP_ICON,
} from './icons.tsx';
import { ToolButton } from './ToolButton.tsx';
import styles from './tool-bar.module.css';

const VIEWS = [
  { view: 'isometric', name: 'Isometric view', hint: '1', icon: ISOMETRIC_ICON },
  { view: 'top', name: 'Top view', hint: '2', icon: TOP_ICON },
  { view: 'front', name: 'Front view', hint: '3', icon: FRONT_ICON },
  { view: 'right', name: 'Right view', hint: '4', icon: RIGHT_ICON },
  { view: 'fit', name: 'Fit everything', hint: 'F', icon: FIT_ICON },
] as const satisfies readonly { view: StandardView | 'fit'; name: string; hint: string; icon: unknown }[];

/** Where the drawing is looked at from. `words`: with names, as in a menu. */
export function ViewGroups({ words = false }: { readonly words?: boolean }) {
  const parallel = useStore(sessionStore, ({ projection }) => projection === 'orthographic');
  return (
    <fieldset className={styles['group']} data-words={words || undefined}>
      <legend className={styles['legend']}>View</legend>
      {VIEWS.map(({ view, name, hint, icon }) => (
        <ToolButton
          key={view}
          icon={icon}
          name={name}
          hint={hint}
          words={words}
          onPress={() => wishView(sessionStore, view)}
        />
      ))}
      <ToolButton
        icon={parallel ? PARALLEL_ICON : PERSPECTIVE_ICON}
        name={parallel ? 'Parallel projection, change to perspective' : 'Perspective, change to parallel projection'}
        words={words}
        onPress={() => sessionStore.setState({ projection: parallel ? 'perspective' : 'orthographic' })}
      />
    </fieldset>
  );
}
