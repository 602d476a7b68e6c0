import type { Convex } from '../math/convex-distance.ts';
import type { Mat3 } from '../math/rotation.ts';
import { cross, length, subtract, unit, type Vec3 } from '../math/vec3.ts';
import { inputFault, type JudgementFault } from './inverse-jacobian.ts';

/** A convex solid in the frame of the plate it is fixed to [mm]. */
export type Solid =
  /** Turned about its frame's z by `turn` [rad]. */
  | { readonly kind: 'box'; readonly centre: Vec3; readonly size: Vec3; readonly turn: number }
  /** Between the centres of its two flat ends. */
  | { readonly kind: 'cylinder'; readonly from: Vec3; readonly to: Vec3; readonly radius: number }
  /** A flat outline (convex; flat x y pairs) between two heights. */
  | { readonly kind: 'prism'; readonly outline: Float64Array; readonly bottom: number; readonly top: number }
  /** The convex hull of points (flat x y z): what bounds an imported mesh. */
  | { readonly kind: 'hull'; readonly points: Float64Array };

/** A rotation and an origin that change from pose to pose: `x_B = R x + p`. */
export interface Placement {
  readonly R: Float64Array;
  readonly p: Float64Array;
}

/** The base frame itself. */
export const fixedPlacement = (): Placement => ({
  R: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
  p: new Float64Array(3),
});

/** First number of a solid that cannot be used, in words; null when all can. */
export function solidFault(name: string, solid: Solid): JudgementFault | null {
  const positive: readonly (readonly [string, number])[] =
    solid.kind === 'box'
      ? solid.size.map((size, axis) => [`size along ${'xyz'[axis]}`, size] as const)
      : solid.kind === 'cylinder'
        ? [
            ['radius', solid.radius],
            ['length', length(subtract(solid.to, solid.from))],
          ]
        : solid.kind === 'prism'
          ? [['height', solid.top - solid.bottom]]
          : [];
  for (const [what, value] of positive)
    if (!(value > 0) || !Number.isFinite(value))
      return inputFault(`${name}, ${what}: ${value} mm; it must be above 0.`);
  const flat = solid.kind === 'prism' ? solid.outline : solid.kind === 'hull' ? solid.points : null;
  if (flat && !flat.every(Number.isFinite)) return inputFault(`${name}: every coordinate must be a finite number.`);
  if (solid.kind === 'prism' && solid.outline.length < 6) return inputFault(`${name}: an outline needs three points.`);
  if (solid.kind === 'hull' && solid.points.length === 0)
    return inputFault(`${name} has no points, so nothing bounds it; export it again with its triangles.`);
  return null;
}

/** A solid placed in the base frame, as the distance walker sees it. */
export class PlacedSolid implements Convex {
  readonly solid: Solid;
  readonly placement: Placement;
  private readonly local: Convex;

  constructor(solid: Solid, placement: Placement) {
    this.solid = solid;
    this.placement = placement;
    this.local = localSupport(solid);
  }

  support(dx: number, dy: number, dz: number, to: Float64Array, offset: number): void {
    const { R, p } = this.placement;
    this.local.support(
      R[0] * dx + R[3] * dy + R[6] * dz,
      R[1] * dx + R[4] * dy + R[7] * dz,
      R[2] * dx + R[5] * dy + R[8] * dz,
      to,
      offset,
    );
    const x = to[offset];
    const y = to[offset + 1];
    const z = to[offset + 2];
    to[offset] = R[0] * x + R[1] * y + R[2] * z + p[0];
    to[offset + 1] = R[3] * x + R[4] * y + R[5] * z + p[1];
    to[offset + 2] = R[6] * x + R[7] * y + R[8] * z + p[2];
  }
}

/** A segment that reads its six numbers from a shared array. */
export class SegmentCore implements Convex {
  private readonly ends: Float64Array;
  private readonly start: number;

  constructor(ends: Float64Array, start: number) {
    this.ends = ends;
    this.start = start;
  }

  support(dx: number, dy: number, dz: number, to: Float64Array, offset: number): void {
    const { ends, start: s } = this;
    const along = (ends[s + 3] - ends[s]) * dx + (ends[s + 4] - ends[s + 1]) * dy + (ends[s + 5] - ends[s + 2]) * dz;
    const from = along > 0 ? s + 3 : s;
    to[offset] = ends[from];
    to[offset + 1] = ends[from + 1];
    to[offset + 2] = ends[from + 2];
  }
}

/** Support points in the solid's own frame. */
function localSupport(solid: Solid): Convex {
  switch (solid.kind) {
    case 'box':
      return boxSupport(solid.centre, solid.size, solid.turn);
    case 'cylinder':
      return cylinderSupport(solid.from, solid.to, solid.radius);
    case 'prism':
      return prismSupport(solid.outline, solid.bottom, solid.top);
    case 'hull':
      return hullSupport(solid.points);
  }
}

function boxSupport([cx, cy, cz]: Vec3, [sx, sy, sz]: Vec3, turn: number): Convex {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return {
    support(dx, dy, dz, to, offset) {
      const x = c * dx + s * dy >= 0 ? sx / 2 : -sx / 2;
      const y = c * dy - s * dx >= 0 ? sy / 2 : -sy / 2;
      to[offset] = cx + c * x - s * y;
      to[offset + 1] = cy + s * x + c * y;
      to[offset + 2] = cz + (dz >= 0 ? sz / 2 : -sz / 2);
    },
  };
}

function cylinderSupport(from: Vec3, end: Vec3, radius: number): Convex {
  const axis = unit(subtract(end, from));
  const [ax, ay, az] = axis;
  // two directions across: the rim point stays in the end's plane whatever rounding does to the direction
  const [ex, ey, ez] = unit(cross(axis, Math.abs(ax) < 0.7 ? [1, 0, 0] : [0, 1, 0]));
  const [fx, fy, fz] = cross(axis, [ex, ey, ez]);
  return {
    support(dx, dy, dz, to, offset) {
      const centre = ax * dx + ay * dy + az * dz >= 0 ? end : from;
      const e = ex * dx + ey * dy + ez * dz;
      const f = fx * dx + fy * dy + fz * dz;
      const size = Math.sqrt(e * e + f * f);
      const reach = size > 0 ? radius / size : 0;
      to[offset] = centre[0] + reach * (e * ex + f * fx);
      to[offset + 1] = centre[1] + reach * (e * ey + f * fy);
      to[offset + 2] = centre[2] + reach * (e * ez + f * fz);
    },
  };
}

function prismSupport(outline: Float64Array, bottom: number, top: number): Convex {
  return {
    support(dx, dy, dz, to, offset) {
      let best = 0;
      for (let n = 2; n < outline.length; n += 2)
        if (outline[n] * dx + outline[n + 1] * dy > outline[best] * dx + outline[best + 1] * dy) best = n;
      to[offset] = outline[best];
      to[offset + 1] = outline[best + 1];
      to[offset + 2] = dz >= 0 ? top : bottom;
    },
  };
}

function hullSupport(points: Float64Array): Convex {
  return {
    support(dx, dy, dz, to, offset) {
      let best = 0;
      let most = Number.NEGATIVE_INFINITY;
      for (let n = 0; n < points.length; n += 3) {
        const along = points[n] * dx + points[n + 1] * dy + points[n + 2] * dz;
        if (along > most) {
          most = along;
          best = n;
        }
      }
      to[offset] = points[best];
      to[offset + 1] = points[best + 1];
      to[offset + 2] = points[best + 2];
    },
  };
}

/** Centre and radius of a ball around a solid, in the solid's frame [mm]: quick, not the smallest. */
export function boundingBall(solid: Solid): { readonly centre: Vec3; readonly radius: number } {
  const body = localSupport(solid);
  const tip = new Float64Array(3);
  const reach = (dx: number, dy: number, dz: number) => {
    body.support(dx, dy, dz, tip, 0);
    return dx * tip[0] + dy * tip[1] + dz * tip[2];
  };
  const low: Vec3 = [-reach(-1, 0, 0), -reach(0, -1, 0), -reach(0, 0, -1)];
  const high: Vec3 = [reach(1, 0, 0), reach(0, 1, 0), reach(0, 0, 1)];
  const centre: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  return { centre, radius: length(subtract(high, centre)) };
}

/** Writes a pose into a placement; `origin` is the frame's origin in base axes. */
export function place(placement: Placement, R_BP: Mat3, origin: Vec3): void {
  placement.R.set(R_BP);
  placement.p.set(origin);
}

/** Whether vertical lines through (x, y) of the solid's frame meet a prism or an upright cylinder. */
export function insideOutline(solid: Solid, x: number, y: number): boolean {
  if (solid.kind === 'cylinder') {
    const axis = cross(subtract(solid.to, solid.from), [0, 0, 1]);
    return length(axis) === 0 && (x - solid.from[0]) ** 2 + (y - solid.from[1]) ** 2 <= solid.radius ** 2;
  }
  if (solid.kind !== 'prism') return false;
  const { outline } = solid;
  const last = outline.length;
  let side = 0;
  for (let n = 0; n < last; n += 2) {
    const m = (n + 2) % last;
    const turn =
      (outline[m] - outline[n]) * (y - outline[n + 1]) - (outline[m + 1] - outline[n + 1]) * (x - outline[n]);
    if (turn === 0) continue;
    if (side * turn < 0) return false;
    side = turn;
  }
  return true;
}
