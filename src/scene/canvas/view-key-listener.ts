import { stoodHome, wishView } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import type { CameraRig } from './camera-rig.ts';
import { type ViewCommand, viewCommand } from './view-keys.ts';

/** Obeys the 3D view's keys while its canvas has the focus. */
export function followViewKeys(canvas: HTMLCanvasElement, rig: CameraRig): () => void {
  const onKey = (event: KeyboardEvent) => {
    const command = viewCommand(event);
    if (!command) return;
    event.preventDefault();
    obey(command, rig);
  };
  canvas.addEventListener('keydown', onKey);
  return () => canvas.removeEventListener('keydown', onKey);
}

function obey(command: ViewCommand, rig: CameraRig): void {
  switch (command.kind) {
    case 'view':
      wishView(sessionStore, command.view);
      break;
    case 'orbit':
      rig.orbit(command.left, command.up);
      break;
    case 'pan':
      rig.pan(command.right, command.down);
      break;
    case 'zoom':
      rig.zoom(command.factor);
      break;
    case 'home':
      sessionStore.setState(stoodHome);
      break;
    case 'loose':
      toggleLooseMotion();
      break;
  }
}

/** Shows and plays the loosest motion; once it is shown, plays or pauses it. */
function toggleLooseMotion(): void {
  sessionStore.setState(({ looseMotion }) => ({
    looseMotion: { ...looseMotion, shown: true, playing: !looseMotion.shown || !looseMotion.playing },
  }));
}
