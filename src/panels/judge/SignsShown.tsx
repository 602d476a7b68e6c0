import { useStore } from 'zustand';
import { signWords } from '../../state/reach/sign-words.ts';
import { fieldStore, sessionStore } from '../../state/stores.ts';
import styles from './floors.module.css';

/** Whether a leg goes from push to pull somewhere in the reach, and where. */
export function SignsShown() {
  const signs = useStore(sessionStore, (session) => session.signs);
  const words = useStore(fieldStore, (field) => signWords(field.signs, signs.leg));
  const changes = useStore(fieldStore, (field) => (field.signs.finished?.value.changing.length ?? 0) > 0);
  return (
    <div className={styles['signs']}>
      <label>
        <input
          type="checkbox"
          checked={signs.shown}
          onChange={(event) => sessionStore.setState({ signs: { ...signs, shown: event.target.checked } })}
        />
        Show where a leg’s force changes sign
      </label>
      <p className={styles['note']} role="status">
        {signs.shown ? words : ''}
        {signs.shown && changes ? ' There it goes from push to pull and its backlash opens.' : ''}
      </p>
    </div>
  );
}
