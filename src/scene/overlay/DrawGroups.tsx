import { useStore } from 'zustand';
import { sessionStore } from '../../state/stores.ts';
import {
  CLOUD_ICON,
  CONES_ICON,
  CUT_ICON,
  FIRMNESS_ICON,
  FRAMES_ICON,
  LIMIT_ICON,
  MOVE_ICON,
  SHELL_ICON,
  SIGNS_ICON,
  TURN_ICON,
} from './icons.tsx';
import { ToolButton } from './ToolButton.tsx';
import styles from './tool-bar.module.css';

interface DrawGroupsProps {
  /** With names, as in a menu. */
  readonly words?: boolean;
  /** There is a 3D view; without it there are neither colours nor a handle. */
  readonly solid: boolean;
}

/** What is drawn, and the handle on the platform. */
export function DrawGroups({ words = false, solid }: DrawGroupsProps) {
  return (
    <>
      <ReachGroup words={words} solid={solid} />
      <PartsGroup words={words} solid={solid} />
      {solid && <HandleGroup words={words} />}
    </>
  );
}

interface GroupProps {
  readonly words: boolean;
}

function ReachGroup({ words, solid }: GroupProps & { readonly solid: boolean }) {
  const drawing = useStore(sessionStore, ({ reachDrawing }) => reachDrawing);
  const colouring = useStore(sessionStore, ({ reachColouring }) => reachColouring);
  const draw = (kind: 'shell' | 'cloud') => sessionStore.setState({ reachDrawing: drawing === kind ? 'none' : kind });
  const shell = (
    <ToolButton
      icon={SHELL_ICON}
      name="Reach as a shell"
      pressed={drawing === 'shell'}
      words={words}
      onPress={() => draw('shell')}
    />
  );
  if (!solid) {
    return (
      <fieldset className={styles['group']} data-words={words || undefined}>
        <legend className={styles['legend']}>Reach</legend>
        <ToolButton
          icon={SHELL_ICON}
          name="Outline of the reach"
          pressed={drawing !== 'none'}
          words={words}
          onPress={() => sessionStore.setState({ reachDrawing: drawing === 'none' ? 'shell' : 'none' })}
        />
      </fieldset>
    );
  }
  return (
    <fieldset className={styles['group']} data-words={words || undefined}>
      <legend className={styles['legend']}>Reach</legend>
      {shell}
      <ToolButton
        icon={CLOUD_ICON}
        name="Reach as a cloud"
        pressed={drawing === 'cloud'}
        words={words}
        onPress={() => draw('cloud')}
      />
      <ToolButton
        icon={FIRMNESS_ICON}
        name="Colour by firmness"
        pressed={colouring === 'firmness'}
        words={words}
        onPress={() => sessionStore.setState({ reachColouring: 'firmness' })}
      />
      <ToolButton
        icon={LIMIT_ICON}
        name="Colour by the limit that binds"
        pressed={colouring === 'limit'}
        words={words}
        onPress={() => sessionStore.setState({ reachColouring: 'limit' })}
      />
      <FieldButtons words={words} />
    </fieldset>
  );
}

/** What opens the reach, and what is drawn inside of it. */
function FieldButtons({ words }: GroupProps) {
  const cut = useStore(sessionStore, (session) => session.cut.shown);
  const signs = useStore(sessionStore, (session) => session.signs.shown);
  return (
    <>
      <ToolButton
        icon={CUT_ICON}
        name="Cut the reach open"
        pressed={cut}
        words={words}
        onPress={() => sessionStore.setState((session) => ({ cut: { ...session.cut, shown: !cut } }))}
      />
      <ToolButton
        icon={SIGNS_ICON}
        name="Where a leg’s force changes sign"
        pressed={signs}
        words={words}
        onPress={() => sessionStore.setState((session) => ({ signs: { ...session.signs, shown: !signs } }))}
      />
    </>
  );
}

function PartsGroup({ words, solid }: GroupProps & { readonly solid: boolean }) {
  const cones = useStore(sessionStore, ({ showCones }) => showCones);
  const frames = useStore(sessionStore, ({ showFrames }) => showFrames);
  return (
    <fieldset className={styles['group']} data-words={words || undefined}>
      <legend className={styles['legend']}>Parts</legend>
      <ToolButton
        icon={CONES_ICON}
        name="Joint limits"
        pressed={cones}
        words={words}
        onPress={() => sessionStore.setState({ showCones: !cones })}
      />
      {solid && (
        <ToolButton
          icon={FRAMES_ICON}
          name="Axes of base and platform"
          pressed={frames}
          words={words}
          onPress={() => sessionStore.setState({ showFrames: !frames })}
        />
      )}
    </fieldset>
  );
}

function HandleGroup({ words }: GroupProps) {
  const handle = useStore(sessionStore, (session) => session.handle);
  const toggle = (kind: 'move' | 'turn') => sessionStore.setState({ handle: handle === kind ? 'off' : kind });
  return (
    <fieldset className={styles['group']} data-words={words || undefined}>
      <legend className={styles['legend']}>Handle</legend>
      <ToolButton
        icon={MOVE_ICON}
        name="Handle that moves the platform"
        pressed={handle === 'move'}
        words={words}
        onPress={() => toggle('move')}
      />
      <ToolButton
        icon={TURN_ICON}
        name="Handle that turns the platform"
        pressed={handle === 'turn'}
        words={words}
        onPress={() => toggle('turn')}
      />
    </fieldset>
  );
}
