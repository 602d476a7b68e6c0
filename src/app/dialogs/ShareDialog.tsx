import { Check, Copy } from 'lucide-react';
import { useId, useState } from 'react';
import { useStore } from 'zustand';
import { COMFORTABLE_LINK } from '../../document/share-link.ts';
import { copyText } from '../../panels/copy-text.ts';
import { announce } from '../../state/session/notices-store.ts';
import { designStore, noticesStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { groupedText } from '../../words/numbers.ts';
import { useDesk } from '../files/desk-context.ts';
import { designAddress } from '../links/link-opening.ts';
import { DialogFrame } from './DialogFrame.tsx';
import styles from './share.module.css';

/** The open design as a link, to copy. */
export function ShareDialog() {
  const document = useStore(designStore, (state) => state.document);
  const desk = useDesk();
  const address = designAddress(document, window.location.href);
  const long = address.length > COMFORTABLE_LINK;
  const snapshots = document.snapshots?.length ?? 0;
  return (
    <DialogFrame
      title="Link to this design"
      description="The link carries the whole design in its last part, which browsers send to no server. Whoever opens it gets a copy of their own."
    >
      <AddressToCopy address={address} />
      {snapshots > 0 && (
        <p className={styles['note']}>
          {snapshots === 1 ? 'Its snapshot stays' : `Its ${snapshots} snapshots stay`} behind; a file takes{' '}
          {snapshots === 1 ? 'it' : 'them'} along.
        </p>
      )}
      {long && (
        <div className={styles['long']}>
          <p>
            ▲ Mail and chat programs may cut links of more than {COMFORTABLE_LINK} characters
            {document.note.length > COMFORTABLE_LINK / 2 ? '; most of this one is the design’s note' : ''}. Send the
            file instead.
          </p>
          <Button onClick={() => void desk.saveAs()}>Save the file…</Button>
        </div>
      )}
    </DialogFrame>
  );
}

/** What became of the wish to copy. */
type Copied = 'not yet' | 'done' | 'refused';

function AddressToCopy({ address }: { readonly address: string }) {
  const id = useId();
  const [copied, setCopied] = useState<Copied>('not yet');
  const copy = async () => {
    const done = await copyText(address);
    setCopied(done ? 'done' : 'refused');
    announce(noticesStore, done ? 'Link copied.' : 'The browser did not allow copying.');
    if (!done) selectAll(document.getElementById(id));
  };
  return (
    <>
      <label className={styles['label']} htmlFor={id}>
        Link <span className={styles['length']}>{groupedText(address.length, 0)} characters</span>
      </label>
      <textarea
        id={id}
        className={styles['address']}
        readOnly
        rows={4}
        value={address}
        onFocus={(event) => event.target.select()}
      />
      <div className={styles['actions']}>
        <Button look="filled" onClick={() => void copy()}>
          {copied === 'done' ? <Check aria-hidden size={15} /> : <Copy aria-hidden size={15} />}
          {copied === 'done' ? 'Copied' : 'Copy link'}
        </Button>
        {copied === 'refused' && (
          <p role="status">The browser did not allow copying; the link is selected, copy it from there.</p>
        )}
      </div>
    </>
  );
}

function selectAll(element: HTMLElement | null): void {
  if (!(element instanceof HTMLTextAreaElement)) return;
  element.focus();
  element.select();
}
