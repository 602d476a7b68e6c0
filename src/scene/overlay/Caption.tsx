import { useStore } from 'zustand';
import { liveDocument } from '../../state/design-store.ts';
import { isCurrent } from '../../state/results-store.ts';
import { reachPose } from '../../state/session-store.ts';
import { designStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { looseWords, pinnedWords, reachWords } from '../model/caption-words.ts';
import styles from './overlay.module.css';

/** What is drawn, in a line or two below the picture. */
export function Caption() {
  const document = useStore(designStore, liveDocument);
  const session = useStore(sessionStore);
  const picture = useStore(resultsStore, (results) => results.picture);
  const current = picture.finished !== null && isCurrent(picture.finished.subject, document, reachPose(session));
  const lines = [
    reachWords(session, {
      current,
      working: picture.working,
      failure: picture.failure,
      any: picture.finished !== null,
    }),
    looseWords(document, session),
    pinnedWords(session),
  ].filter((line) => line !== null);
  return (
    <div className={styles['caption']}>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
