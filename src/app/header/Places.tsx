import { useStore } from 'zustand';
import type { Place } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import styles from './Header.module.css';

/** The places that exist; the 3D view stays while the place changes. */
const TITLES = [
  { id: 'shape', title: 'Shape' },
  { id: 'explore', title: 'Explore' },
] as const satisfies readonly { readonly id: Place; readonly title: string }[];

/** Where a person is in the work. */
export function Places() {
  const present = useStore(sessionStore, ({ place }) => place);
  return (
    <nav aria-label="Places" className={styles['places']}>
      <ul>
        {TITLES.map(({ id, title }) => (
          <li key={id}>
            <button
              type="button"
              aria-current={id === present ? 'page' : undefined}
              onClick={() => sessionStore.setState({ place: id, hovered: null })}
            >
              {title}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
