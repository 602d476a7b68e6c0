import { X } from 'lucide-react';
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { dismissNotice, type Notice } from '../state/session/notices-store.ts';
import { noticesStore } from '../state/stores.ts';
import { Button } from '../ui/Button.tsx';
import styles from './Notices.module.css';

/** How long a notice that asks for nothing stays [ms]. */
const FLEETING_TIME = 8000;

/** Short messages in a corner; each is also read out politely. */
export function Notices() {
  const notices = useStore(noticesStore, (state) => state.notices);
  const announcement = useStore(noticesStore, (state) => state.announcement);
  return (
    <>
      <section className={styles['notices']} aria-label="Notices">
        {notices.map((notice) => (
          <Slip key={notice.id} notice={notice} />
        ))}
      </section>
      <p className="spoken" role="status">
        {announcement}
      </p>
    </>
  );
}

function Slip({ notice }: { readonly notice: Notice }) {
  const { id, text, tone, action, fleeting } = notice;
  useEffect(() => {
    if (!fleeting) return undefined;
    const timer = setTimeout(() => dismissNotice(noticesStore, id), FLEETING_TIME);
    return () => clearTimeout(timer);
  }, [id, fleeting]);
  const act = () => {
    dismissNotice(noticesStore, id);
    action?.run();
  };
  return (
    <div className={styles['slip']} data-tone={tone}>
      <p>{text}</p>
      {action && (
        <Button look="bare" className={styles['action']} onClick={act}>
          {action.label}
        </Button>
      )}
      <Button
        look="bare"
        className={styles['close']}
        aria-label="Dismiss notice"
        onClick={() => dismissNotice(noticesStore, id)}
      >
        <X aria-hidden size={15} />
      </Button>
    </div>
  );
}
