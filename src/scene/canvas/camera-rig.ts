import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Vec3 } from '../../math/vec3.ts';
import type { SessionState, StandardView } from '../../state/session/session-store.ts';
import { type Framing, fitParallel, fitView, type Insets, type Lens } from '../shape/view-fit.ts';
import { betweenFramings, STANDARD_DIRECTIONS } from './framings.ts';

/** Half the vertical angle of the perspective view: long, as illustrations are drawn [rad]. */
const HALF_ANGLE = (10 * Math.PI) / 180;

/** Time a change of view takes [ms]. */
const TRAVEL_TIME = 260;

/** Nearest and farthest clipping plane in distances of the camera from its target. */
const NEAR_SHARE = 0.02;
const FAR_SHARE = 30;

interface Journey {
  readonly from: Framing;
  readonly to: Framing;
  start: number | null;
}

/**
 * Two cameras, perspective and parallel, that always show the same framing, and the controls that move whichever is in use.
 * Nothing moves by itself but a change of standard view, which ends.
 */
export class CameraRig {
  readonly perspective = new PerspectiveCamera();
  readonly orthographic = new OrthographicCamera();
  readonly controls: OrbitControls;
  /** The person has moved the camera since the last fit, so it is not fitted again unasked. */
  touched = false;
  private kind: SessionState['projection'] = 'perspective';
  private aspect = 1;
  private journey: Journey | null = null;

  constructor(element: HTMLElement, onChange: () => void) {
    for (const camera of [this.perspective, this.orthographic]) {
      // the controls read it once, when they are made
      camera.up.set(0, 0, 1);
      camera.position.set(300, -300, 300);
      // keeps the renderer's hands off the projection
      Object.assign(camera, { manual: true });
    }
    this.perspective.fov = (2 * HALF_ANGLE * 180) / Math.PI;
    this.controls = new OrbitControls(this.perspective, element);
    this.controls.enableDamping = false;
    this.controls.addEventListener('change', () => {
      this.updateClipping();
      onChange();
    });
    this.controls.addEventListener('start', () => this.take());
  }

  get camera(): PerspectiveCamera | OrthographicCamera {
    return this.kind === 'perspective' ? this.perspective : this.orthographic;
  }

  get lens(): Lens {
    return { halfAngle: HALF_ANGLE, aspect: this.aspect };
  }

  resize(width: number, height: number): void {
    this.aspect = width / Math.max(1, height);
    this.perspective.aspect = this.aspect;
    this.orthographic.left = -this.aspect;
    this.orthographic.right = this.aspect;
    this.updateClipping();
  }

  setProjection(kind: SessionState['projection']): void {
    if (kind === this.kind) return;
    const framing = this.framing();
    this.kind = kind;
    this.controls.object = this.camera;
    this.show(framing);
  }

  /** What is on screen now. */
  framing(): Framing {
    const { camera } = this;
    const { target } = this.controls;
    const arm = new Vector3().subVectors(camera.position, target);
    const reach = arm.length();
    const distance = camera instanceof PerspectiveCamera ? reach : 1 / (camera.zoom * Math.tan(HALF_ANGLE));
    arm.divideScalar(reach);
    return { target: [target.x, target.y, target.z], toCamera: [arm.x, arm.y, arm.z], distance };
  }

  /** Turns to a standard view, or stays turned as it is, so that all points are in the picture. */
  fit(points: readonly Vec3[], view: StandardView | 'fit', insets: Insets, jump: boolean): void {
    const toCamera = view === 'fit' ? this.framing().toCamera : STANDARD_DIRECTIONS[view];
    const fitted = this.kind === 'perspective' ? fitView : fitParallel;
    const to = fitted(points, toCamera, this.lens, insets);
    this.touched = false;
    if (jump) this.show(to);
    else this.journey = { from: this.framing(), to, start: null };
  }

  /** Moves a step along a change of view; true while there is more to come. `now` in ms. */
  step(now: number): boolean {
    const { journey } = this;
    if (!journey) return false;
    journey.start ??= now;
    const share = Math.min(1, (now - journey.start) / TRAVEL_TIME);
    if (share >= 1) this.journey = null;
    this.show(betweenFramings(journey.from, journey.to, share));
    return share < 1;
  }

  /** Turns about the target [rad]: to the left, and upward. */
  orbit(left: number, up: number): void {
    this.take();
    this.controls.rotateLeft(left);
    this.controls.rotateUp(up);
  }

  /** Moves the picture [CSS px]. */
  pan(right: number, down: number): void {
    this.take();
    this.controls.pan(right, down);
  }

  /** Brings things nearer by a factor above 1, farther below. */
  zoom(factor: number): void {
    this.take();
    if (factor > 1) this.controls.dollyIn(1 / factor);
    else this.controls.dollyOut(factor);
  }

  dispose(): void {
    this.controls.dispose();
  }

  private take(): void {
    this.touched = true;
    this.journey = null;
  }

  private show({ target, toCamera, distance }: Framing): void {
    const { camera } = this;
    this.controls.target.set(...target);
    camera.position
      .set(...toCamera)
      .multiplyScalar(distance)
      .add(this.controls.target);
    if (camera instanceof OrthographicCamera) camera.zoom = 1 / (distance * Math.tan(HALF_ANGLE));
    this.updateClipping();
    this.controls.update();
  }

  private updateClipping(): void {
    const { camera } = this;
    const { distance } = this.framing();
    camera.near = camera instanceof PerspectiveCamera ? NEAR_SHARE * distance : -FAR_SHARE * distance;
    camera.far = FAR_SHARE * distance;
    camera.updateProjectionMatrix();
  }
}
