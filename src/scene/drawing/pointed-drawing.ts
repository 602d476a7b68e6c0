import { Group } from 'three';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { poseFromAngles } from '../../kinematics/pose.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { PoseBox } from '../../reach/pose-box.ts';
import type { PointedState } from '../../state/session/pointed-store.ts';
import type { SceneView } from '../model/scene-view.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { GhostDrawing } from './ghost-drawing.ts';
import { InkLines } from './ink-lines.ts';
import { PENS } from './pens.ts';

/** A dash of the box's edges as a share of the layout's size. */
const DASH = 0.02;

/** What is pointed at outside of the drawing: another layout, a platform at another pose, the positions of a box of poses. */
export class PointedDrawing {
  readonly object = new Group();
  private readonly ghost: GhostDrawing;
  private readonly box: InkLines;

  constructor(uniforms: FrameUniforms) {
    this.ghost = new GhostDrawing(uniforms, true);
    this.box = new InkLines(uniforms, 128);
    // it lies among the legs and plates, and is to be seen through them
    this.box.object.material.depthTest = false;
    this.object.add(this.ghost.object, this.box.object);
  }

  /** @param layout the layout pointed at, null for none */
  update(mechanism: Mechanism, { pose, box }: PointedState, layout: SceneView['ghost']): void {
    this.ghost.begin();
    if (layout) this.ghost.draw(layout.mechanism, layout.pose, PENS.loose, true);
    if (pose) this.ghost.draw(mechanism, poseFromAngles(pose), PENS.loose, false);
    this.ghost.end();
    this.box.begin();
    if (box) this.drawBox(box, DASH * mechanism.size);
    this.box.end();
  }

  dispose(): void {
    this.ghost.dispose();
    this.box.dispose();
  }

  private drawBox({ centre, half }: PoseBox, dash: number): void {
    for (const [one, other] of boxEdges(centre.position, half.position)) this.box.dashes(one, other, dash, PENS.ghost);
  }
}

/** The twelve edges of a box with its sides along the axes. */
export function boxEdges(centre: Vec3, half: Vec3): readonly (readonly [Vec3, Vec3])[] {
  const corner = (n: number): Vec3 => {
    const end = (axis: number) => centre[axis] + ((n >> axis) & 1 ? half[axis] : -half[axis]);
    return [end(0), end(1), end(2)];
  };
  const edges: [Vec3, Vec3][] = [];
  for (let n = 0; n < 8; n++)
    for (let axis = 0; axis < 3; axis++) if (!((n >> axis) & 1)) edges.push([corner(n), corner(n | (1 << axis))]);
  return edges;
}
