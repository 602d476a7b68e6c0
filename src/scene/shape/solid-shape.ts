import type { Solid } from '../../kinematics/bodies.ts';
import { add, at, scale, subtract, unit, type Vec3 } from '../../math/vec3.ts';
import { squareAxes } from './cone-rim.ts';

/** A solid as it is drawn, in its own frame [mm]. */
export interface SolidShape {
  /** Flat 9 numbers a triangle. */
  readonly triangles: Float64Array;
  /** Flat 6 numbers a line. */
  readonly edges: Float64Array;
  /** Points whose hull is the solid, flat 3 numbers each. */
  readonly points: Float64Array;
}

/** Corners of a drawn cylinder's ends; every how many of them a line runs from one end to the other. */
const SIDES = 32;
const LINE_EVERY = 8;

/** A box, cylinder or prism as triangles and edges. Hulls of points are made where the drawing library can make them. */
export function solidShape(solid: Exclude<Solid, { readonly kind: 'hull' }>): SolidShape {
  switch (solid.kind) {
    case 'box':
      return between(boxEnds(solid.centre, solid.size, solid.turn), 1);
    case 'cylinder':
      return between(cylinderEnds(solid.from, solid.to, solid.radius), LINE_EVERY);
    case 'prism': {
      const corners = Array.from({ length: solid.outline.length / 2 }, (_, n) => n);
      const end = (z: number) => corners.map((n): Vec3 => [solid.outline[2 * n], solid.outline[2 * n + 1], z]);
      return between([end(solid.bottom), end(solid.top)], 1);
    }
  }
}

type Ends = readonly [bottom: readonly Vec3[], top: readonly Vec3[]];

function boxEnds(centre: Vec3, [sx, sy, sz]: Vec3, turn: number): Ends {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ];
  const end = (up: number) =>
    corners.map(([a, b]): Vec3 => {
      const [x, y] = [(a * sx) / 2, (b * sy) / 2];
      return add(centre, [c * x - s * y, s * x + c * y, (up * sz) / 2]);
    });
  return [end(-1), end(1)];
}

function cylinderEnds(from: Vec3, to: Vec3, radius: number): Ends {
  const [u, v] = squareAxes(unit(subtract(to, from)));
  const end = (centre: Vec3) =>
    Array.from({ length: SIDES }, (_, n): Vec3 => {
      const angle = (2 * Math.PI * n) / SIDES;
      return add(centre, add(scale(u, radius * Math.cos(angle)), scale(v, radius * Math.sin(angle))));
    });
  return [end(from), end(to)];
}

/** What lies between two equal polygons, corner over corner. */
function between([bottom, top]: Ends, lineEvery: number): SolidShape {
  const triangles: number[] = [];
  const edges: number[] = [];
  const count = bottom.length;
  for (let n = 0; n < count; n++) {
    const next = (n + 1) % count;
    triangles.push(...bottom[n], ...bottom[next], ...top[next], ...bottom[n], ...top[next], ...top[n]);
    edges.push(...bottom[n], ...bottom[next], ...top[n], ...top[next]);
    if (n % lineEvery === 0) edges.push(...bottom[n], ...top[n]);
    if (n === 0 || next === 0) continue;
    triangles.push(...bottom[0], ...bottom[next], ...bottom[n], ...top[0], ...top[n], ...top[next]);
  }
  return {
    triangles: Float64Array.from(triangles),
    edges: Float64Array.from(edges),
    points: Float64Array.from([...bottom, ...top].flat()),
  };
}

/** Points whose hull is the solid, in its own frame [mm]; a cylinder's ends as polygons. */
export function solidPoints(solid: Solid): readonly Vec3[] {
  const { points } = solid.kind === 'hull' ? solid : solidShape(solid);
  return Array.from({ length: points.length / 3 }, (_, n) => at(points, n));
}
