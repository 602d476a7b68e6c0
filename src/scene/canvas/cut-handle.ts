import { type Camera, Object3D } from 'three';
import { TransformControls } from 'three/examples/jsm/controls/TransformControls.js';
import { ACROSS } from '../../reach/columns/column-cutter.ts';
import type { CutPlane } from '../../reach/field/field-cut.ts';

/** Size of the handle on screen; larger where fingers grab it. */
const SIZE = 0.6;
const COARSE_SIZE = 0.9;

interface CutHandleEvents {
  readonly onChange: () => void;
  readonly onDragging: (dragging: boolean) => void;
  /** The plane was dragged to this place on its axis [mm]. */
  readonly onPlace: (at: number) => void;
}

/** An arrow on the edge of the plane that cuts the reach; dragging it moves the plane along its axis. */
export class CutHandle {
  private readonly controls: TransformControls;
  private readonly root: Object3D;
  private readonly grip = new Object3D();
  private axis: CutPlane['axis'] = 0;

  constructor(camera: Camera, element: HTMLElement, parent: Object3D, events: CutHandleEvents) {
    this.controls = new TransformControls(camera, element);
    this.controls.setSpace('world');
    this.controls.setSize(matchMedia('(pointer: coarse)').matches ? COARSE_SIZE : SIZE);
    this.root = this.controls.getHelper();
    parent.add(this.grip, this.root);
    this.controls.attach(this.grip);
    this.controls.addEventListener('change', () => {
      element.style.cursor = this.pointedAt ? 'move' : '';
      events.onChange();
    });
    this.controls.addEventListener('dragging-changed', ({ value }) => events.onDragging(value === true));
    this.controls.addEventListener('objectChange', () => events.onPlace(this.grip.position.getComponent(this.axis)));
    this.place(null);
  }

  setCamera(camera: Camera): void {
    this.controls.camera = camera;
  }

  setColours(axes: string, active: string): void {
    this.controls.setColors(axes, axes, axes, active);
  }

  /** Stands on the middle of an edge of the plane, out of the way of the platform; null: is not there. */
  place(plane: CutPlane | null): void {
    this.root.visible = plane !== null;
    this.controls.enabled = plane !== null;
    if (!plane || this.controls.dragging) return;
    const { axis, at, low, high } = plane;
    this.axis = axis;
    const [u, v] = ACROSS[axis];
    this.grip.position.setComponent(axis, at);
    this.grip.position.setComponent(u, high[0]);
    this.grip.position.setComponent(v, axis === 2 ? low[1] : (low[1] + high[1]) / 2);
    this.grip.updateMatrixWorld();
    this.controls.showX = axis === 0;
    this.controls.showY = axis === 1;
    this.controls.showZ = axis === 2;
  }

  /** True where the pointer could grab it. */
  get pointedAt(): boolean {
    return this.root.visible && this.controls.axis !== null;
  }

  dispose(): void {
    this.controls.detach();
    this.grip.removeFromParent();
    this.root.removeFromParent();
    this.controls.dispose();
  }
}
