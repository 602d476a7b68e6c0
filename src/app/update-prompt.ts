import { registerSW } from 'virtual:pwa-register';
import type { Autosave } from '../state/kept/autosave.ts';
import { type NoticesStore, notify } from '../state/session/notices-store.ts';

/** Keeps the program for offline use and offers a new version when there is one; nothing reloads by itself. */
export function followUpdates(notices: NoticesStore, autosave: Autosave | null): void {
  const update = registerSW({
    onNeedRefresh: () => {
      const run = () => void (autosave?.flush() ?? Promise.resolve()).then(() => update(true));
      notify(notices, 'A new version of Legroom is ready.', { action: { label: 'Use it now', run } });
    },
    onOfflineReady: () => {
      notify(notices, 'Legroom is now kept on this machine and works offline.');
    },
  });
}
