import type { LayoutMode } from './layout-mode.ts';

/** The place where many layouts are weighed against each other. */
export function ExplorePlace({ mode }: { readonly mode: LayoutMode }) {
  return <section id="design" data-mode={mode} aria-label="Set-up" />;
}
