import { type Camera, Matrix4, Object3D } from 'three';
import { TransformControls } from 'three/examples/jsm/controls/TransformControls.js';
import { anglesFromPose, type Pose, type PoseAngles } from '../../kinematics/pose.ts';
import { rotationFromQuaternion } from '../../math/rotation.ts';
import type { SessionState } from '../../state/session/session-store.ts';

/** Steps of the handle while the snap key is held [mm, rad]. */
const SNAP_TRAVEL = 1;
const SNAP_TURN = Math.PI / 180;

/** Size of the handle on screen; larger where fingers grab it. */
const SIZE = 0.8;
const COARSE_SIZE = 1.1;

interface HandleEvents {
  /** Something of the handle looks different. */
  readonly onChange: () => void;
  readonly onDragging: (dragging: boolean) => void;
  readonly onPose: (pose: PoseAngles) => void;
}

/** Arrows or rings at the tool point that move or turn the platform. Shift holds it to whole millimetres and degrees. */
export class PlatformHandle {
  readonly root: Object3D;
  private readonly controls: TransformControls;
  private readonly grip = new Object3D();
  private readonly matrix = new Matrix4();
  private readonly element: HTMLElement;

  constructor(camera: Camera, element: HTMLElement, parent: Object3D, events: HandleEvents) {
    this.element = element;
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
    this.controls.addEventListener('objectChange', () => events.onPose(this.pose()));
    // before the controls' own listener, so that the step holds for this very move
    element.addEventListener('pointermove', this.followSnapKey, { capture: true });
  }

  setCamera(camera: Camera): void {
    this.controls.camera = camera;
  }

  setMode(mode: SessionState['handle']): void {
    const shown = mode !== 'off';
    this.root.visible = shown;
    this.controls.enabled = shown;
    if (shown) this.controls.setMode(mode === 'move' ? 'translate' : 'rotate');
  }

  setColours(axes: string, active: string): void {
    this.controls.setColors(axes, axes, axes, active);
  }

  /** Follows the platform, unless it is the handle that moves it. */
  place({ p_BoTo_B, R_BP: R }: Pose): void {
    if (this.controls.dragging) return;
    this.grip.position.set(...p_BoTo_B);
    // biome-ignore format: a matrix
    this.matrix.set(
      R[0], R[1], R[2], 0,
      R[3], R[4], R[5], 0,
      R[6], R[7], R[8], 0,
      0, 0, 0, 1,
    );
    this.grip.quaternion.setFromRotationMatrix(this.matrix);
    this.grip.updateMatrixWorld();
  }

  /** True where the pointer could grab something. */
  get pointedAt(): boolean {
    return this.root.visible && this.controls.axis !== null;
  }

  dispose(): void {
    this.element.removeEventListener('pointermove', this.followSnapKey, { capture: true });
    this.element.style.cursor = '';
    this.controls.detach();
    this.grip.removeFromParent();
    this.root.removeFromParent();
    this.controls.dispose();
  }

  private pose(): PoseAngles {
    const { position, quaternion } = this.grip;
    return anglesFromPose({
      p_BoTo_B: [position.x, position.y, position.z],
      R_BP: rotationFromQuaternion([quaternion.w, quaternion.x, quaternion.y, quaternion.z]),
    });
  }

  private readonly followSnapKey = (event: PointerEvent): void => {
    this.controls.translationSnap = event.shiftKey ? SNAP_TRAVEL : null;
    this.controls.rotationSnap = event.shiftKey ? SNAP_TURN : null;
  };
}
