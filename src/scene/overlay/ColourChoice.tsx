import { useId } from 'react';
import { useStore } from 'zustand';
import type { ReachColouring } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import { QUANTITIES, QUANTITY_NAMES, shownUnit } from '../../terms/quantities.ts';
import { Select } from '../../ui/Select.tsx';
import styles from './overlay.module.css';

/** Every colouring by the words of its menu. */
const COLOURINGS: readonly (readonly [ReachColouring, string])[] = [
  ['firmness', 'firmness'],
  ['limit', 'limit that stops it'],
  // the firmness stands first already: the cloud carries it
  ...QUANTITY_NAMES.filter((quantity) => quantity !== 'firmness').map(
    (quantity) => [quantity, withUnit(quantity)] as const,
  ),
];

function withUnit(quantity: (typeof QUANTITY_NAMES)[number]): string {
  const unit = shownUnit(quantity);
  return unit === '' ? QUANTITIES[quantity].words : `${QUANTITIES[quantity].words}, ${unit}`;
}

/** What colours the reach. */
export function ColourChoice() {
  const id = useId();
  const colouring = useStore(sessionStore, ({ reachColouring }) => reachColouring);
  return (
    <div className={styles['choice']}>
      <label htmlFor={id}>Colour by</label>
      <Select
        id={id}
        value={colouring}
        onChange={(event) => {
          const chosen = COLOURINGS.find(([value]) => value === event.target.value)?.[0];
          if (chosen) sessionStore.setState({ reachColouring: chosen });
        }}
      >
        {COLOURINGS.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </Select>
    </div>
  );
}
