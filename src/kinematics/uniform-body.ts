import { hullTriangles } from '../math/hull-triangles.ts';
import { type Symmetric3, solidMoments } from '../math/solid-moments.ts';
import { add, length, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import type { Solid } from './bodies.ts';
import type { Inertia } from './inertia.ts';

/** A solid of one density throughout, in the frame of the solid. */
export interface UniformBody {
  /** [mm^3] */
  readonly volume: number;
  /** Centre of mass [mm]. */
  readonly centre: Vec3;
  /** About the centre of mass, for a mass of 1 kg [kg mm^2]. */
  readonly inertia: Inertia;
}

/** Volume, centre of mass and inertia of a solid of one density; null for a hull whose points lie in one plane. */
export function uniformBody(solid: Solid): UniformBody | null {
  switch (solid.kind) {
    case 'box':
      return box(solid.centre, solid.size, solid.turn);
    case 'cylinder':
      return cylinder(solid.from, solid.to, solid.radius);
    case 'prism':
      return hull(cornersOfPrism(solid.outline, solid.bottom, solid.top));
    case 'hull':
      return hull(solid.points);
  }
}

/** m (b^2 + c^2) / 12 about a box's own axes, turned about z: R I R^T. */
function box(centre: Vec3, [x, y, z]: Vec3, turn: number): UniformBody {
  const [along, across] = [(y * y + z * z) / 12, (x * x + z * z) / 12];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const inertia: Inertia = [
    c * c * along + s * s * across,
    s * s * along + c * c * across,
    (x * x + y * y) / 12,
    c * s * (along - across),
    0,
    0,
  ];
  return { volume: x * y * z, centre, inertia };
}

/** m r^2 / 2 along the axis and m (r^2 / 4 + h^2 / 12) across it: across (1 - a a^T) + along a a^T with a the axis. */
function cylinder(from: Vec3, to: Vec3, radius: number): UniformBody {
  const axis = subtract(to, from);
  const height = length(axis);
  const [x, y, z] = unit(axis);
  const across = radius ** 2 / 4 + height ** 2 / 12;
  const more = radius ** 2 / 2 - across;
  return {
    volume: Math.PI * radius ** 2 * height,
    centre: scale(add(from, to), 0.5),
    inertia: [
      across + more * x * x,
      across + more * y * y,
      across + more * z * z,
      more * x * y,
      more * x * z,
      more * y * z,
    ],
  };
}

function hull(points: Float64Array): UniformBody | null {
  const corners = hullTriangles(points);
  const moments =
    corners && solidMoments(corners.flatMap((n) => [points[3 * n], points[3 * n + 1], points[3 * n + 2]]));
  if (!moments) return null;
  const { volume, centroid, second } = moments;
  return { volume, centre: centroid, inertia: inertiaOfMoments(second, volume) };
}

/** Inertia of 1 kg from second moments of the volume: the integral of `r^2 1 - x x^T`, by the volume [mm^2]. */
export function inertiaOfMoments(second: Symmetric3, volume: number): Inertia {
  const [xx, yy, zz, xy, xz, yz] = second.map((sum) => sum / volume);
  return [yy + zz, xx + zz, xx + yy, -xy, -xz, -yz];
}

function cornersOfPrism(outline: Float64Array, bottom: number, top: number): Float64Array {
  const corners: number[] = [];
  for (let n = 0; n < outline.length; n += 2)
    corners.push(outline[n], outline[n + 1], bottom, outline[n], outline[n + 1], top);
  return Float64Array.from(corners);
}
