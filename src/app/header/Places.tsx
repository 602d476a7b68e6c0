import styles from './Header.module.css';

/** The places that exist; the 3D view stays while the place changes. */
const PLACES = [{ id: 'shape', title: 'Shape' }] as const;

export type Place = (typeof PLACES)[number]['id'];

/** Where a person is in the work. */
export function Places() {
  const present: Place = 'shape';
  return (
    <nav aria-label="Places" className={styles['places']}>
      <ul>
        {PLACES.map(({ id, title }) => (
          <li key={id}>
            <button type="button" aria-current={id === present ? 'page' : undefined}>
              {title}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
