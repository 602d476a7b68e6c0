import { Group } from 'three';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Pose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate } from '../../math/rotation.ts';
import { add, at, type Vec3 } from '../../math/vec3.ts';
import { OUTLINE_CORNERS } from '../shape/plate-outline.ts';
import { plateShape } from '../shape/plate-shape.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';

/** A dash of a ghost's leg as a share of the layout's size. */
const DASH = 0.035;

/** Platforms shown beside the live one in dashed lines: the pinned design, or the two ends of a motion. */
export class GhostDrawing {
  readonly object = new Group();
  private readonly lines: InkLines;

  /** @param through seen through the solids in front of it, where it may differ from them by less than their size */
  constructor(uniforms: FrameUniforms, through = false) {
    this.lines = new InkLines(uniforms, 1024);
    this.lines.object.material.depthTest = !through;
    this.object.add(this.lines.object);
  }

  begin(): void {
    this.lines.begin();
  }

  /** Legs and plates of a design at a pose; `withBase` also draws its base plate. */
  draw(mechanism: Mechanism, pose: Pose, pen: Pen, withBase: boolean): void {
    const origin = platformOrigin(pose, mechanism.p_PoTo_P);
    const placed = (point: Vec3): Vec3 => add(origin, rotate(pose.R_BP, point));
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const from = at(mechanism.centres.base, leg);
      const to = placed(at(mechanism.centres.platform, leg));
      this.lines.dashes(from, to, DASH * mechanism.size, pen);
    }
    this.drawPlate(mechanism, 'platform', placed, pen);
    if (withBase) this.drawPlate(mechanism, 'base', (point) => point, pen);
  }

  /** A straight dashed line. */
  axis(from: Vec3, to: Vec3, dash: number, pen: Pen): void {
    this.lines.dashes(from, to, dash, pen);
  }

  end(): void {
    this.lines.end();
  }

  dispose(): void {
    this.lines.dispose();
  }

  private drawPlate(mechanism: Mechanism, plate: PlateName, placed: (point: Vec3) => Vec3, pen: Pen): void {
    const { outline, innerFace } = plateShape(mechanism, plate);
    const corner = (i: number): Vec3 => {
      const k = 2 * (i % OUTLINE_CORNERS);
      return placed([outline.corners[k], outline.corners[k + 1], innerFace]);
    };
    // every other piece of the edge: dashes
    for (let i = 0; i < OUTLINE_CORNERS; i += 2) this.lines.line(corner(i), corner(i + 1), pen);
  }
}
