/** Parts of the page that a key leads to in turn, in the order in which they stand in the page. */
const REGIONS = '[data-place] > header, [data-place] > section, [data-place] > main';

/** What takes the focus in a part: its first control that does. */
const STOPS =
  'a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea, canvas[tabindex], [tabindex="0"]';

const firstStop = (region: Element): HTMLElement | null =>
  [...region.querySelectorAll<HTMLElement>(STOPS)].find(
    (element) => element.tabIndex >= 0 && element.checkVisibility({ visibilityProperty: true }),
  ) ?? null;

/** Moves the focus to the next part of the page, or with -1 to the one before; round and round. */
export function toRegion(step: 1 | -1): void {
  const regions = [...document.querySelectorAll(REGIONS)];
  const inside = regions.findIndex((region) => region.contains(document.activeElement));
  const from = inside < 0 && step < 0 ? 0 : inside;
  for (let n = 1; n <= regions.length; n++) {
    const stop = firstStop(regions[(from + step * n + 2 * regions.length) % regions.length]);
    if (!stop) continue;
    stop.focus();
    return;
  }
}
