import { useSyncExternalStore } from 'react';

/** Tokens as last read; looking one up makes the browser compute styles, so it is done once a theme. */
const known = new Map<string, string>();

/** Calls back when the page takes another theme. */
function onTheme(changed: () => void): () => void {
  const observer = new MutationObserver(() => {
    known.clear();
    changed();
  });
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => observer.disconnect();
}

/** The present value of a colour token of the style sheet. */
export const useToken = (token: string): string => useSyncExternalStore(onTheme, () => tokenValue(token));

function tokenValue(token: string): string {
  let value = known.get(token);
  if (value === undefined) {
    value = getComputedStyle(document.documentElement).getPropertyValue(token).trim();
    known.set(token, value);
  }
  return value;
}

/** Red, green and blue, 0 to 255, of a colour as style sheets write it. */
export function channelsOf(colour: string): readonly [number, number, number] {
  const probe = document.createElement('canvas').getContext('2d');
  if (!probe) return [0, 0, 0];
  probe.fillStyle = colour;
  // the canvas gives colours back as #rrggbb
  const text = String(probe.fillStyle);
  const channel = (at: number) => Number.parseInt(text.slice(at, at + 2), 16) || 0;
  return [channel(1), channel(3), channel(5)];
}
