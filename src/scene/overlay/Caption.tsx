import { useCallback } from 'react';
import { useStore } from 'zustand';
import { liveDocument } from '../../state/design/design-store.ts';
import { compareStore, designStore, pointedStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { useDerived } from '../../state/use-derived.ts';
import { looseWords, type PictureStatus, pinnedWords, reachWords } from '../model/caption-words.ts';
import { comparedWords } from '../model/compared-shells.ts';
import { pointedWords } from '../model/pointed-words.ts';
import { useStale } from '../use-stale.ts';
import styles from './overlay.module.css';

/** What is drawn, in a line or two below the picture. */
export function Caption() {
  const stale = useStale();
  const failure = useStore(resultsStore, ({ picture }) => (picture.working ? null : picture.failure));
  const any = useStore(resultsStore, ({ picture }) => picture.finished !== null);
  const read = useCallback(() => captionNow({ any, stale, failure }), [any, stale, failure]);
  const text = useDerived(STORES, read);
  return (
    <div className={styles['caption']}>
      {text.split('\n').map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

const STORES = [designStore, sessionStore, compareStore, pointedStore] as const;

/** One text, so that a rocking platform, which changes the session with every frame, changes nothing on the page. */
function captionNow(status: PictureStatus): string {
  const document = liveDocument(designStore.getState());
  const session = sessionStore.getState();
  return [
    reachWords(session, status),
    looseWords(document, session),
    pinnedWords(session),
    pointedWords(pointedStore.getState()),
    comparedWords(compareStore.getState(), document, session.pinned),
  ]
    .filter((line) => line !== null)
    .join('\n');
}
