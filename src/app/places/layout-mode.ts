import { useSyncExternalStore } from 'react';

/** How much room there is: three columns, two, or a phone. */
export type LayoutMode = 'wide' | 'middle' | 'phone';

/** Widths from which there is room for two and for three columns [CSS px]; the style sheets use the same. */
const MIDDLE = matchMedia('(min-width: 700px)');
const WIDE = matchMedia('(min-width: 1100px)');

const mode = (): LayoutMode => {
  if (WIDE.matches) return 'wide';
  return MIDDLE.matches ? 'middle' : 'phone';
};

function subscribe(onChange: () => void): () => void {
  MIDDLE.addEventListener('change', onChange);
  WIDE.addEventListener('change', onChange);
  return () => {
    MIDDLE.removeEventListener('change', onChange);
    WIDE.removeEventListener('change', onChange);
  };
}

export const useLayoutMode = (): LayoutMode => useSyncExternalStore(subscribe, mode);
