/** The person has asked for less motion. */
export const REDUCED_MOTION = '(prefers-reduced-motion: reduce)';

/** Calls back when the page's theme or the system's colours change. */
export function followTheme(onChange: () => void): () => void {
  const observer = new MutationObserver(onChange);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme', 'class', 'style'] });
  return () => observer.disconnect();
}

/** Calls back when a media query starts or stops to match. */
export function followMedia(query: string, onChange: (matches: boolean) => void): () => void {
  const list = matchMedia(query);
  const listen = () => onChange(list.matches);
  list.addEventListener('change', listen);
  return () => list.removeEventListener('change', listen);
}
