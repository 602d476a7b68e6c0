import { type ComponentType, lazy } from 'react';
import type { LayoutMode } from './layout-mode.ts';

export interface PlaceProps {
  readonly mode: LayoutMode;
}

/** One place of the work: what stands around the drawing, and how the page is divided for it. */
export interface PlaceSpec {
  readonly id: string;
  /** Its name in the header. */
  readonly title: string;
  /** The link that jumps over the header and the verdict: its words, and the id of the element that takes the focus. */
  readonly skip: { readonly words: string; readonly to: string };
  /** Class whose style sheet divides the page, in areas of which `header`, `verdict` and `view` are filled by the frame. */
  readonly grid: string;
  readonly Body: ComponentType<PlaceProps>;
}

/** A body whose code comes when its place is first opened. */
export const later = (load: () => Promise<ComponentType<PlaceProps>>): ComponentType<PlaceProps> =>
  lazy(async () => ({ default: await load() }));
