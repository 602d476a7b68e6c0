import { describe, expect, it } from 'vitest';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';
import type { Mat3 } from '../../src/math/rotation.ts';
import type { Vec3 } from '../../src/math/vec3.ts';
import { ReachMeter } from '../../src/reach/columns/meter.ts';
import { levelReach, type RandomReach, tiltedReach } from './random-layouts.ts';

/** How far the worst limit is broken [mm], below 0 inside: leg lengths, and ball joints' cones by the distance to their surface. */
function violation(mechanism: Mechanism, R: Mat3): (p: Vec3) => number {
  const { p_ToBi_P: b, centres, baseAxes_B, platformAxes_P, tiltLimit, legs } = mechanism;
  const turned = (v: ArrayLike<number>, i: number): Vec3 => [
    R[0] * v[i] + R[1] * v[i + 1] + R[2] * v[i + 2],
    R[3] * v[i] + R[4] * v[i + 1] + R[5] * v[i + 2],
    R[6] * v[i] + R[7] * v[i + 1] + R[8] * v[i + 2],
  ];
  const arms = [0, 3, 6, 9, 12, 15].map((i) => turned(b, i));
  const platformAxes = [0, 3, 6, 9, 12, 15].map((i) => turned(platformAxes_P, i));
  const cone = (along: number, size: number, limit: number) => {
    if (limit >= Math.PI) return -1e9;
    return size * Math.sin(Math.acos(Math.min(Math.max(along / size, -1), 1)) - limit);
  };
  return ([x, y, z]) => {
    let worst = Number.NEGATIVE_INFINITY;
    for (let leg = 0; leg < 6; leg++) {
      const [i, [rx, ry, rz], [ax, ay, az]] = [3 * leg, arms[leg], platformAxes[leg]];
      const [lx, ly, lz] = [x + rx - centres.base[i], y + ry - centres.base[i + 1], z + rz - centres.base[i + 2]];
      const size = Math.sqrt(lx * lx + ly * ly + lz * lz);
      const base = lx * baseAxes_B[i] + ly * baseAxes_B[i + 1] + lz * baseAxes_B[i + 2];
      // the platform's joint sees the leg from above
      const platform = -(lx * ax + ly * ay + lz * az);
      worst = Math.max(
        ...[worst, legs.min - size, size - legs.max],
        ...[cone(base, size, tiltLimit.base), cone(platform, size, tiltLimit.platform)],
      );
    }
    return worst;
  };
}

const POINTS = 4000;
const STARTS = 8;
const TRIES = 250;

/** Farthest places found along both ways of the three axes: random points, the best of them moved at random as long as that gains. */
function denseSearch({ mechanism, R_BP }: RandomReach, random: Random): readonly Vec3[] | null {
  const broken = violation(mechanism, R_BP);
  const inside = (p: Vec3) => broken(p) <= 0;
  const { max } = mechanism.legs;
  const b = mechanism.p_ToBi_P;
  const A = mechanism.centres.base;
  const box = [0, 1, 2].map((axis) => {
    const middles = [0, 1, 2, 3, 4, 5].map((leg) => {
      const arm = [0, 1, 2].reduce((sum, k) => sum + R_BP[3 * axis + k] * b[3 * leg + k], 0);
      return A[3 * leg + axis] - arm;
    });
    return [Math.max(...middles) - max, Math.min(...middles) + max] as const;
  });
  const size = Math.max(...box.map(([low, high]) => high - low));
  const kept: Vec3[] = [];
  for (let n = 0; n < POINTS; n++) {
    const p: Vec3 = [uniform(random, ...box[0]), uniform(random, ...box[1]), uniform(random, ...box[2])];
    if (inside(p)) kept.push(p);
  }
  if (kept.length === 0) return null;
  return [-1, 1].flatMap((sign) =>
    [0, 1, 2].map((axis) => {
      const starts = [...kept].sort((p, q) => sign * (q[axis] - p[axis])).slice(0, STARTS);
      const ends = starts.map((start) => {
        let best = start;
        let step = size / 8;
        for (let n = 0; n < TRIES; n++) {
          const q: Vec3 = [
            best[0] + step * uniform(random, -1, 1),
            best[1] + step * uniform(random, -1, 1),
            best[2] + step * uniform(random, -1, 1),
          ];
          if (sign * (q[axis] - best[axis]) > 0 && inside(q)) {
            best = q;
            step *= 1.6;
          } else step *= 0.93;
          if (step < 1e-6 * size) step = size / 50;
        }
        return best;
      });
      return ends.reduce((best, end) => (sign * (end[axis] - best[axis]) > 0 ? end : best));
    }),
  );
}

// that no end is stated too far out follows from how they are found: each is the end of a column, and columns are held against the
// definitions in column.test.ts
describe('the box of the reach', () => {
  it.each([
    ['leaning mounts, tilted and turned', tiltedReach, 100, 8100],
    ['level rings', levelReach, 100, 8200],
  ] as const)('holds what a dense search finds: %s', { timeout: 120_000 }, (_, make, layouts, seed) => {
    const meter = new ReachMeter();
    let tried = 0;
    for (let n = 0; n < layouts; n++) {
      const random = seededRandom(seed + n);
      const reach = make(random);
      const found = denseSearch(reach, random);
      const { bounds } = meter.measure(reach.mechanism, reach.R_BP);
      if (!found || !bounds) continue;
      tried++;
      const ends = [...bounds.low, ...bounds.high];
      for (let end = 0; end < 6; end++) {
        const extent = bounds.high[end % 3] - bounds.low[end % 3];
        const place = found[end];
        const coordinate = place[end % 3];
        const beyond = (end < 3 ? ends[end] - coordinate : coordinate - ends[end]) / extent;
        const where = `layout ${seed + n}, end ${end}: ${coordinate} found, ${ends[end]} stated`;
        expect(beyond, where).toBeLessThan(1e-6);
      }
    }
    expect(tried).toBeGreaterThan(layouts / 2);
  });
});
