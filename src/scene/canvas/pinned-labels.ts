import { type Camera, Vector3 } from 'three';
import type { Warning } from '../model/warnings.ts';

/** Labels at once; more would hide the drawing, and the table of legs has them all. */
const MOST_LABELS = 6;

/** Distance of a label from its mark, and of labels from one another [CSS px]. */
const ARM = 26;
const LINE_HEIGHT = 21;
const MARGIN = 4;

interface LabelParts {
  readonly root: HTMLElement;
  readonly mark: HTMLElement;
  readonly leader: HTMLElement;
  readonly text: HTMLElement;
}

/** Names of the classes that the style sheet gives to the parts. */
export interface LabelClasses {
  readonly root: string;
  readonly mark: string;
  readonly leader: string;
  readonly text: string;
}

/**
 * Warnings written beside the leg or joint they concern: a mark at the place, a short line, a text. They are page elements, sharp at
 * any size; their places are set anew with every frame that is drawn. Read aloud they would be noise: the page says the same elsewhere.
 */
export class PinnedLabels {
  private readonly container: HTMLElement;
  private readonly classes: LabelClasses;
  private readonly pool: LabelParts[] = [];
  private warnings: readonly Warning[] = [];
  private readonly point = new Vector3();

  constructor(container: HTMLElement, classes: LabelClasses) {
    this.container = container;
    this.classes = classes;
  }

  show(warnings: readonly Warning[]): void {
    this.warnings = warnings;
    const shown = Math.min(warnings.length, MOST_LABELS);
    while (this.pool.length < shown) this.pool.push(this.make());
    this.pool.forEach((parts, i) => {
      parts.root.hidden = i >= shown;
      if (i >= shown) return;
      const { words, limit } = warnings[i];
      const more = i === MOST_LABELS - 1 ? warnings.length - MOST_LABELS : 0;
      const text = more > 0 ? `${words} (and ${more} more)` : words;
      if (parts.text.textContent !== text) parts.text.textContent = text;
      parts.root.dataset['limit'] = limit;
    });
  }

  /** Puts every label beside its place on screen, outward from the middle, and out of each other's way. */
  place(camera: Camera, width: number, height: number): void {
    const shown = Math.min(this.warnings.length, MOST_LABELS);
    const placed = Array.from({ length: shown }, (_, i) => this.spot(i, camera, width, height));
    placed.sort((a, b) => a.y - b.y);
    const lowest = { left: Number.NEGATIVE_INFINITY, right: Number.NEGATIVE_INFINITY };
    for (const spot of placed) {
      const { root, mark, leader, text } = this.pool[spot.index];
      const size = text.offsetWidth;
      const side = spot.x < width / 2 ? 'left' : 'right';
      const y = Math.max(spot.y - 14, lowest[side] + LINE_HEIGHT, MARGIN);
      lowest[side] = y;
      const wanted = side === 'left' ? spot.x - ARM - size : spot.x + ARM;
      const x = Math.min(Math.max(wanted, MARGIN), Math.max(MARGIN, width - size - MARGIN));
      root.style.visibility = spot.ahead ? 'visible' : 'hidden';
      mark.style.transform = `translate(${spot.x}px, ${spot.y}px)`;
      text.style.transform = `translate(${x}px, ${y - LINE_HEIGHT / 2}px)`;
      const end = side === 'left' ? x + size : x;
      const span = Math.hypot(end - spot.x, y - spot.y);
      const angle = Math.atan2(y - spot.y, end - spot.x);
      leader.style.transform = `translate(${spot.x}px, ${spot.y}px) rotate(${angle}rad) scaleX(${span})`;
    }
  }

  clear(): void {
    for (const { root } of this.pool) root.remove();
    this.pool.length = 0;
    this.warnings = [];
  }

  private spot(index: number, camera: Camera, width: number, height: number) {
    this.point.set(...this.warnings[index].anchor).project(camera);
    const { x, y, z } = this.point;
    return { index, x: ((x + 1) / 2) * width, y: ((1 - y) / 2) * height, ahead: z < 1 };
  }

  private make(): LabelParts {
    const part = (name: keyof LabelClasses, parent: HTMLElement): HTMLElement => {
      const element = document.createElement('div');
      element.className = this.classes[name];
      parent.append(element);
      return element;
    };
    const root = part('root', this.container);
    return { root, leader: part('leader', root), mark: part('mark', root), text: part('text', root) };
  }
}
