/** What the Tab key stops at, and what is there to take the focus when buttons go. */
const STOPS =
  'a[href], button:not([disabled]), input:not([disabled]), select:not([disabled]), textarea:not([disabled]), summary, [tabindex]:not([tabindex="-1"]), [data-holds-focus]';

/** A part of the page that held the focus, and the place of the focused element among its stops. */
interface Held {
  readonly part: HTMLElement;
  readonly place: number;
}

const stopsIn = (part: HTMLElement): readonly HTMLElement[] =>
  [...part.querySelectorAll<HTMLElement>(STOPS)].filter((stop) => stop.checkVisibility());

/** Parts around an element, the smallest first, up to but without the page's body. */
function heldBy(element: HTMLElement): readonly Held[] {
  const held: Held[] = [];
  for (let part = element.parentElement; part && part !== document.body; part = part.parentElement)
    held.push({ part, place: stopsIn(part).indexOf(element) });
  return held;
}

/**
 * Hands the focus on when the element that has it goes or is disabled, as buttons do that have done what they are for: to what stands in its
 * place in the smallest part of the page that is left. Without this the next Tab would start at the top of the page.
 * @returns ends it
 */
export function keepFocus(root: HTMLElement): () => void {
  let last: { readonly element: HTMLElement; readonly held: readonly Held[] } | null = null;
  let pressed = false;
  const note = ({ target }: FocusEvent): void => {
    last = target instanceof HTMLElement ? { element: target, held: heldBy(target) } : null;
  };
  const check = (): void => {
    // the key that has just done its work would go on to press whatever has the focus next
    if (!last || pressed) return;
    const { element, held } = last;
    const { activeElement } = document;
    const lost = activeElement === null || activeElement === document.body || activeElement === element;
    if (!lost || (element.isConnected && !element.matches(':disabled'))) return;
    last = null;
    for (const { part, place } of held) {
      if (!part.isConnected) continue;
      const stops = stopsIn(part);
      if (stops.length === 0) continue;
      stops[Math.min(Math.max(place, 0), stops.length - 1)].focus({ preventScroll: true });
      return;
    }
  };
  const press = (): void => {
    pressed = true;
  };
  const release = (): void => {
    pressed = false;
    setTimeout(check);
  };
  const observer = new MutationObserver(check);
  root.addEventListener('focusin', note);
  root.addEventListener('keydown', press, true);
  root.addEventListener('keyup', release, true);
  observer.observe(root, { subtree: true, childList: true, attributes: true, attributeFilter: ['disabled'] });
  return () => {
    root.removeEventListener('focusin', note);
    root.removeEventListener('keydown', press, true);
    root.removeEventListener('keyup', release, true);
    observer.disconnect();
  };
}
