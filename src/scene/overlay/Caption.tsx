import { useStore } from 'zustand';
import { liveDocument } from '../../state/design/design-store.ts';
import { compareStore, designStore, pointedStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { looseWords, pinnedWords, reachWords } from '../model/caption-words.ts';
import { comparedWords } from '../model/compared-shells.ts';
import { pointedWords } from '../model/pointed-words.ts';
import { useStale } from '../use-stale.ts';
import styles from './overlay.module.css';

/** What is drawn, in a line or two below the picture. */
export function Caption() {
  const document = useStore(designStore, liveDocument);
  const stale = useStale();
  const failure = useStore(resultsStore, ({ picture }) => (picture.working ? null : picture.failure));
  const any = useStore(resultsStore, ({ picture }) => picture.finished !== null);
  const pinned = useStore(sessionStore, (session) => session.pinned);
  const compared = useStore(compareStore, (compare) => comparedWords(compare, document, pinned));
  const pointed = useStore(pointedStore, pointedWords);
  // one text, so that a rocking platform, which changes the session with every frame, changes nothing here
  const text = useStore(sessionStore, (session) =>
    [
      reachWords(session, { any, stale, failure }),
      looseWords(document, session),
      pinnedWords(session),
      pointed,
      compared,
    ]
      .filter((line) => line !== null)
      .join('\n'),
  );
  return (
    <div className={styles['caption']}>
      {text.split('\n').map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
