import { type Camera, Quaternion, Vector3 } from 'three';

/** Length of an axis and place of its letter in the corner drawing's own units. */
const ARM = 20;
const LETTER = 28;

/** Turns the three arrows of a small drawing in the corner with the view. `axes`: a group for X, Y and Z, each a line and a text. */
export class CornerTriad {
  private readonly axes: readonly SVGGElement[];
  private readonly turn = new Quaternion();
  private readonly arrow = new Vector3();

  constructor(axes: readonly SVGGElement[]) {
    this.axes = axes;
  }

  place(camera: Camera): void {
    this.turn.copy(camera.quaternion).invert();
    this.axes.forEach((group, k) => {
      this.arrow.set(k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0).applyQuaternion(this.turn);
      const { x, y, z } = this.arrow;
      const line = group.querySelector('line');
      const letter = group.querySelector('text');
      line?.setAttribute('x2', (ARM * x).toFixed(2));
      line?.setAttribute('y2', (-ARM * y).toFixed(2));
      letter?.setAttribute('x', (LETTER * x).toFixed(2));
      letter?.setAttribute('y', (-LETTER * y).toFixed(2));
      // seen end on, an axis has no direction to show
      group.style.opacity = Math.hypot(x, y) < 0.12 ? '0.25' : z < -0.3 ? '0.6' : '1';
    });
  }
}
