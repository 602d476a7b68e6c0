import { Button } from '../../ui/Button.tsx';
import styles from './PlaceLinks.module.css';
import { PLACES } from './places.ts';
import { goTo, usePlace } from './present-place.ts';

/** Where a person is in the work; the 3D view stays while the place changes. */
export function PlaceLinks() {
  const present = usePlace();
  return (
    <nav aria-label="Places" className={styles['places']}>
      <ul>
        {PLACES.map(({ id, title }) => (
          <li key={id}>
            <Button look="quiet" aria-current={id === present ? 'page' : undefined} onClick={() => goTo(id)}>
              {title}
            </Button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
