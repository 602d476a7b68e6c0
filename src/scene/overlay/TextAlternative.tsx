import { useStore } from 'zustand';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { summaryWords } from '../model/summary-words.ts';

/** The drawing in words, read by screen readers only. */
export function TextAlternative({ id }: { readonly id: string }) {
  const document = useStore(designStore, liveDocument);
  const words = useStore(sessionStore, (session) => summaryWords(document, session));
  return (
    <p id={id} className="spoken">
      {words}
    </p>
  );
}
