import type { KeyboardEvent } from 'react';
import type { Front } from '../../jobs/explore-table-jobs.ts';

/** Places along the front that a key goes, the best in the first objective at place 0. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowRight: -1,
  ArrowUp: 1,
  ArrowLeft: 1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

/**
 * The layout of a front that a key goes to from the one pointed at, held at the ends; from elsewhere to the bend, or to the first.
 * Null for other keys and without a front.
 */
export function frontStep(
  key: string,
  front: Pick<Front, 'indices' | 'knee'> | null,
  from: number | null,
): number | null {
  const step = STEPS[key];
  if (step === undefined || !front || front.indices.length === 0) return null;
  const place = from === null ? -1 : front.indices.indexOf(from);
  const start = front.knee ? front.indices.indexOf(front.knee.place) : 0;
  const next = place < 0 ? start : place + step;
  return front.indices[Math.min(front.indices.length - 1, Math.max(0, next))];
}

interface FrontPicture {
  readonly front: Front | null;
  /** Index of the layout pointed at. */
  readonly pointed: number | null;
  readonly onPoint: (index: number | null) => void;
  readonly onLoad: (index: number) => void;
}

/** Does what a key says on a picture of the front: go along it, load, point at none. Other keys are left alone. */
export function followFrontKey(event: KeyboardEvent, { front, pointed, onPoint, onLoad }: FrontPicture): void {
  const next = frontStep(event.key, front, pointed);
  if (event.key === 'Enter' && pointed !== null) onLoad(pointed);
  else if (event.key === 'Escape') onPoint(null);
  else if (next !== null) onPoint(next);
  else return;
  event.preventDefault();
}
