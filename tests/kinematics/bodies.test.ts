import { describe, expect, it } from 'vitest';
import {
  boundingBall,
  fixedPlacement,
  insideOutline,
  PlacedSolid,
  SegmentCore,
  type Solid,
  solidFault,
} from '../../src/kinematics/bodies.ts';
import { ConvexDistance } from '../../src/math/convex-distance.ts';
import { type Random, randomQuaternion, seededRandom, uniform } from '../../src/math/random.ts';
import { rotate, rotateBack, rotationFromQuaternion } from '../../src/math/rotation.ts';
import { add, dot, length, scale, subtract, unit, type Vec3 } from '../../src/math/vec3.ts';

const range = (random: Random, size: number): Vec3 => [
  uniform(random, -size, size),
  uniform(random, -size, size),
  uniform(random, -size, size),
];

/** A regular outline with random radius and start. */
function outline(random: Random, count: number): Float64Array {
  const [radius, start] = [uniform(random, 0.3, 1), uniform(random, 0, 1)];
  return Float64Array.from({ length: 2 * count }, (_, n) => {
    const angle = start + (2 * Math.PI * Math.floor(n / 2)) / count;
    return radius * (n % 2 === 0 ? Math.cos(angle) : Math.sin(angle));
  });
}

function randomSolid(random: Random, kind: Solid['kind']): Solid {
  switch (kind) {
    case 'box':
      return { kind, centre: range(random, 0.3), size: [0.4, 0.9, 0.6], turn: uniform(random, 0, 3) };
    case 'cylinder':
      return { kind, from: range(random, 0.5), to: range(random, 0.5), radius: uniform(random, 0.1, 0.5) };
    case 'prism':
      return { kind, outline: outline(random, 6), bottom: -0.2, top: uniform(random, 0, 0.4) };
    case 'hull':
      return { kind, points: Float64Array.from({ length: 24 }, () => uniform(random, -0.6, 0.6)) };
  }
}

/** Nearest point of a solid to `x`, in the solid's frame: closed forms, written apart from the support points. */
function nearest(solid: Solid, x: Vec3): Vec3 {
  if (solid.kind === 'box') {
    const [c, s] = [Math.cos(solid.turn), Math.sin(solid.turn)];
    const [dx, dy, dz] = subtract(x, solid.centre);
    const inside = [c * dx + s * dy, c * dy - s * dx, dz].map((entry, axis) =>
      Math.min(Math.max(entry, -solid.size[axis] / 2), solid.size[axis] / 2),
    );
    return add(solid.centre, [c * inside[0] - s * inside[1], s * inside[0] + c * inside[1], inside[2]]);
  }
  if (solid.kind === 'cylinder') {
    const axis = unit(subtract(solid.to, solid.from));
    const arm = subtract(x, solid.from);
    const along = Math.min(Math.max(dot(arm, axis), 0), length(subtract(solid.to, solid.from)));
    const out = subtract(arm, scale(axis, dot(arm, axis)));
    const reach = length(out) > solid.radius ? solid.radius / length(out) : 1;
    return add(solid.from, add(scale(axis, along), scale(out, reach)));
  }
  if (solid.kind === 'prism') {
    const [px, py] = nearestInPolygon(solid.outline, x[0], x[1]);
    return [px, py, Math.min(Math.max(x[2], solid.bottom), solid.top)];
  }
  throw new Error('no closed form');
}

function nearestInPolygon(polygon: Float64Array, x: number, y: number): readonly [number, number] {
  let best: readonly [number, number] = [x, y];
  let distance = Number.POSITIVE_INFINITY;
  let inside = true;
  for (let n = 0; n < polygon.length; n += 2) {
    const m = (n + 2) % polygon.length;
    const [ex, ey] = [polygon[m] - polygon[n], polygon[m + 1] - polygon[n + 1]];
    const [rx, ry] = [x - polygon[n], y - polygon[n + 1]];
    if (ex * ry - ey * rx < 0) inside = false;
    const t = Math.min(Math.max((ex * rx + ey * ry) / (ex * ex + ey * ey), 0), 1);
    const [qx, qy] = [polygon[n] + t * ex, polygon[n + 1] + t * ey];
    if (Math.hypot(x - qx, y - qy) < distance) {
      distance = Math.hypot(x - qx, y - qy);
      best = [qx, qy];
    }
  }
  return inside ? [x, y] : best;
}

/** Brute force: projecting to and fro between the two bodies closes in on their distance (Cheney and Goldstein 1959). */
function bruteDistance(one: PlacedSolid, other: PlacedSolid): number {
  const project = ({ solid, placement: { R, p } }: PlacedSolid, x: Vec3): Vec3 => {
    const origin: Vec3 = [p[0], p[1], p[2]];
    return add(rotate(R, nearest(solid, rotateBack(R, subtract(x, origin)))), origin);
  };
  let x: Vec3 = [0, 0, 0];
  let y = x;
  for (let n = 0; n < 20000; n++) {
    const before = x;
    y = project(one, x);
    x = project(other, y);
    if (length(subtract(x, before)) < 1e-13) break;
  }
  return length(subtract(x, y));
}

function placed(random: Random, solid: Solid, away: number): PlacedSolid {
  const placement = fixedPlacement();
  placement.R.set(rotationFromQuaternion(randomQuaternion(random)));
  placement.p.set(scale(unit(range(random, 1)), away));
  return new PlacedSolid(solid, placement);
}

describe('distance of convex bodies', () => {
  const walker = new ConvexDistance();
  for (const one of ['box', 'cylinder', 'prism'] as const)
    for (const other of ['box', 'cylinder', 'prism'] as const)
      it(`${one} to ${other} is what brute force finds, 60 pairs (seed 91)`, () => {
        const random = seededRandom(91);
        for (let n = 0; n < 60; n++) {
          const A = placed(random, randomSolid(random, one), 0);
          const B = placed(random, randomSolid(random, other), 2.2);
          const found = walker.between(A, B);
          // projecting to and fro converges slowly between parallel faces
          expect(Math.abs(found - bruteDistance(A, B))).toBeLessThan(2e-5);
          expect(found - walker.lowerBound).toBeLessThan(1e-8);
          const gap = Math.hypot(...walker.onA.map((entry, axis) => entry - walker.onB[axis]));
          expect(gap).toBeCloseTo(found, 8);
        }
      });

  it('segment to each solid is what brute force finds along the segment, 150 pairs (seed 92)', () => {
    const random = seededRandom(92);
    for (let n = 0; n < 150; n++) {
      const solid = randomSolid(random, (['box', 'cylinder', 'prism'] as const)[n % 3]);
      const ends = Float64Array.of(...range(random, 2), ...range(random, 2));
      const body = new PlacedSolid(solid, fixedPlacement());
      const distanceAt = (t: number) => {
        const on = (axis: number) => ends[axis] + t * (ends[3 + axis] - ends[axis]);
        const x: Vec3 = [on(0), on(1), on(2)];
        return length(subtract(x, nearest(solid, x)));
      };
      // convex along the segment: narrow a bracket
      let [low, high] = [0, 1];
      for (let step = 0; step < 200; step++) {
        const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
        if (distanceAt(a) < distanceAt(b)) high = b;
        else low = a;
      }
      const brute = Math.min(distanceAt(0), distanceAt(1), distanceAt((low + high) / 2));
      expect(Math.abs(walker.between(new SegmentCore(ends, 0), body) - brute)).toBeLessThan(1e-9);
    }
  });

  it('never takes a leg over a wide thin plate for one that meets it, 1500 legs (seed 97)', () => {
    // flat tetrahedra: the plate's rim points nearly lie in one plane
    const random = seededRandom(97);
    const plate: Solid = { kind: 'cylinder', from: [0, 0, -12], to: [0, 0, -2], radius: 122 };
    const body = new PlacedSolid(plate, fixedPlacement());
    for (let n = 0; n < 1500; n++) {
      const ends = Float64Array.of(...range(random, 110), ...range(random, 200));
      ends[2] = uniform(random, 1, 20);
      ends[5] = uniform(random, 60, 180);
      // the lower end lies over the plate or outside of its rim; the distance is convex along the leg
      const at = (t: number) => {
        const on = (axis: number) => ends[axis] + t * (ends[3 + axis] - ends[axis]);
        return Math.hypot(Math.max(Math.hypot(on(0), on(1)) - 122, 0), on(2) + 2);
      };
      let [low, high] = [0, 1];
      for (let step = 0; step < 80; step++) {
        const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
        if (at(a) < at(b)) high = b;
        else low = a;
      }
      const brute = Math.min(at(0), at(1), at(low));
      expect(Math.abs(walker.between(new SegmentCore(ends, 0), body) - brute)).toBeLessThan(1e-7);
    }
  });

  it('a hull of corners equals the box with these corners (seed 93)', () => {
    const random = seededRandom(93);
    for (let n = 0; n < 40; n++) {
      const size: Vec3 = [0.4, 0.8, 0.5];
      const corners = Array.from({ length: 8 }, (_, c) =>
        size.map((entry, axis) => ((c >> axis) & 1 ? entry / 2 : -entry / 2)),
      );
      const hull: Solid = { kind: 'hull', points: Float64Array.from(corners.flat()) };
      const A = placed(random, { kind: 'box', centre: [0, 0, 0], size, turn: 0 }, 0);
      const B = placed(random, randomSolid(random, 'cylinder'), 2);
      const same = new PlacedSolid(hull, A.placement);
      expect(walker.between(same, B)).toBeCloseTo(walker.between(A, B), 8);
    }
  });

  it('is zero when they overlap, and a lower bound when enough is known', () => {
    const box: Solid = { kind: 'box', centre: [0, 0, 0], size: [2, 2, 2], turn: 0.3 };
    const A = new PlacedSolid(box, fixedPlacement());
    const random = seededRandom(94);
    for (let n = 0; n < 50; n++)
      expect(walker.between(A, placed(random, randomSolid(random, 'cylinder'), 0.4))).toBe(0);
    const far = placed(random, randomSolid(random, 'box'), 50);
    const bound = walker.between(A, far, 10);
    expect(bound).toBeGreaterThanOrEqual(10);
    expect(bound).toBeLessThanOrEqual(walker.between(A, far) + 1e-9);
  });

  for (const size of [1e-3, 1, 1e3])
    it(`scales (x${size})`, () => {
      const make = (k: number) => {
        const solid: Solid = { kind: 'cylinder', from: [0, 0, 0], to: [0.2 * k, 0.5 * k, 0.1 * k], radius: 0.3 * k };
        const other: Solid = { kind: 'box', centre: [2 * k, k, 0.5 * k], size: [k, 0.5 * k, 0.7 * k], turn: 0.4 };
        return walker.between(new PlacedSolid(solid, fixedPlacement()), new PlacedSolid(other, fixedPlacement()));
      };
      expect(make(size) / size / make(1)).toBeCloseTo(1, 9);
    });
});

describe('solids', () => {
  it('are inside their bounding ball (seed 95)', () => {
    const random = seededRandom(95);
    const tip = new Float64Array(3);
    for (const kind of ['box', 'cylinder', 'prism', 'hull'] as const) {
      const solid = randomSolid(random, kind);
      const { centre, radius } = boundingBall(solid);
      const body = new PlacedSolid(solid, fixedPlacement());
      for (let n = 0; n < 500; n++) {
        body.support(...range(random, 1), tip, 0);
        expect(length(subtract([tip[0], tip[1], tip[2]], centre))).toBeLessThanOrEqual(radius * (1 + 1e-12));
      }
    }
  });

  it('know which points lie over their outline', () => {
    const square: Solid = { kind: 'prism', outline: Float64Array.of(-1, -1, 1, -1, 1, 1, -1, 1), bottom: 0, top: 1 };
    expect(insideOutline(square, 0.5, 0.9)).toBe(true);
    expect(insideOutline(square, 1.1, 0)).toBe(false);
    const disc: Solid = { kind: 'cylinder', from: [1, 0, 0], to: [1, 0, 2], radius: 1 };
    expect(insideOutline(disc, 1.9, 0)).toBe(true);
    expect(insideOutline(disc, -0.1, 0)).toBe(false);
  });

  it('that mean nothing are refused by name', () => {
    const message = (solid: Solid) => solidFault('Keep-out 2', solid)?.message;
    expect(message({ kind: 'box', centre: [0, 0, 0], size: [1, 0, 1], turn: 0 })).toBe(
      'Keep-out 2, size along y: 0 mm; it must be above 0.',
    );
    expect(message({ kind: 'cylinder', from: [0, 0, 0], to: [0, 0, 0], radius: 2 })).toContain('length: 0 mm');
    expect(message({ kind: 'hull', points: new Float64Array(0) })).toContain('has no points');
    expect(message({ kind: 'hull', points: Float64Array.of(0, 1, Number.NaN) })).toContain('finite');
    expect(message({ kind: 'box', centre: [0, 0, 0], size: [1, 2, 3], turn: 0 })).toBeUndefined();
  });
});
