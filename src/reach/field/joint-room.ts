import { jointShapes } from '../../kinematics/joint-limits.ts';
import type { JointShape } from '../../kinematics/joint-shapes.ts';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Mat3, rotate } from '../../math/rotation.ts';
import { cross, put, scale, type Vec3 } from '../../math/vec3.ts';

/** Numbers per joint: mount axis, first axis (or bolt), and the direction square to both, base axes. */
const FRAME = 9;

/**
 * Smallest room in the six joints of a plate for many positions at one orientation: the joints' axes are turned into
 * base axes once. Angles near zero tilt are good to 1e-8 rad (arc cosine of a rounded number), which is enough to colour by.
 */
export class JointRoom {
  private readonly shapes: readonly JointShape[];
  private readonly frames = new Float64Array(FRAME * LEG_COUNT);

  constructor(mechanism: Mechanism, plate: PlateName, R_BP: Mat3) {
    this.shapes = jointShapes(mechanism)[plate];
    // seen from a platform joint the leg points the other way
    const toBase = (v: Vec3): Vec3 => (plate === 'base' ? v : scale(rotate(R_BP, v), -1));
    this.shapes.forEach((shape, leg) => {
      const axis: Vec3 = shape.kind === 'rodEnd' ? shape.bolt : shape.axis;
      put(this.frames, 3 * leg, toBase(axis));
      if (shape.kind !== 'universal') return;
      put(this.frames, 3 * leg + 1, toBase(shape.first));
      put(this.frames, 3 * leg + 2, toBase(cross(shape.axis, shape.first)));
    });
  }

  /** @param J rows that start with u_i in base axes, six numbers each. @returns least room [rad] */
  least(J: Float64Array): number {
    let least = Number.POSITIVE_INFINITY;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const room = this.room(leg, J[6 * leg], J[6 * leg + 1], J[6 * leg + 2]);
      if (room < least) least = room;
    }
    return least;
  }

  private room(leg: number, ux: number, uy: number, uz: number): number {
    const { frames } = this;
    const shape = this.shapes[leg];
    const f = FRAME * leg;
    const along = ux * frames[f] + uy * frames[f + 1] + uz * frames[f + 2];
    const clamped = Math.min(Math.max(along, -1), 1);
    if (shape.kind === 'ball') return shape.limit - Math.acos(clamped);
    if (shape.kind === 'rodEnd') return shape.limit - Math.abs(Math.asin(clamped));
    const out = ux * frames[f + 3] + uy * frames[f + 4] + uz * frames[f + 5];
    const across = ux * frames[f + 6] + uy * frames[f + 7] + uz * frames[f + 8];
    const first = Math.abs(Math.atan2(across, along));
    const second = Math.abs(Math.asin(Math.min(Math.max(out, -1), 1)));
    return Math.min(shape.firstLimit - first, shape.secondLimit - second);
  }
}
