import { type Camera, type InstancedMesh, Raycaster, Vector2 } from 'three';
import { legOfCopy } from '../drawing/legs-drawing.ts';

/** What is asked when a pointer moves over the canvas. */
interface LegPointerSources {
  readonly camera: () => Camera;
  readonly target: () => InstancedMesh;
  /** False while something is being dragged or a handle lies under the pointer. */
  readonly free: () => boolean;
  readonly onLeg: (leg: number | null) => void;
}

/** Tells which leg a pointer is on. Only the legs' barrels and rods are tried, nothing else of the drawing. */
export function followLegPointer(element: HTMLElement, sources: LegPointerSources): () => void {
  const raycaster = new Raycaster();
  const place = new Vector2();
  let last: number | null = null;
  const tell = (leg: number | null) => {
    if (leg === last) return;
    last = leg;
    sources.onLeg(leg);
  };
  const onMove = (event: PointerEvent) => {
    if (event.buttons !== 0 || !sources.free()) return tell(null);
    const { left, top, width, height } = element.getBoundingClientRect();
    place.set((2 * (event.clientX - left)) / width - 1, 1 - (2 * (event.clientY - top)) / height);
    raycaster.setFromCamera(place, sources.camera());
    const [hit] = raycaster.intersectObject(sources.target(), false);
    tell(hit?.instanceId === undefined ? null : legOfCopy(hit.instanceId));
  };
  const onLeave = () => tell(null);
  element.addEventListener('pointermove', onMove);
  element.addEventListener('pointerleave', onLeave);
  return () => {
    element.removeEventListener('pointermove', onMove);
    element.removeEventListener('pointerleave', onLeave);
  };
}
