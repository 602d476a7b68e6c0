import { describe, expect, it } from 'vitest';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import { identity3 } from '../../src/math/rotation.ts';
import { Constraints } from '../../src/reach/columns/constraints.ts';
import { leastMargin } from '../../src/reach/columns/deepest-point.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { type ReachShell, reachShell } from '../../src/reach/shell/shell.ts';
import { DEG, mechanismOf, ring } from '../kinematics/designs.ts';
import { levelReach, tiltedReach } from './random-layouts.ts';

const SEED = 12;

/** Directed edges that are not met by exactly one edge the other way. */
function openEdges({ indices }: ReachShell): number {
  const edges = new Map<string, number>();
  for (let t = 0; t < indices.length; t += 3) {
    for (let e = 0; e < 3; e++) {
      const key = `${indices[t + e]} ${indices[t + ((e + 1) % 3)]}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }
  return [...edges].filter(([key, count]) => count !== 1 || edges.get(key.split(' ').reverse().join(' ')) !== 1).length;
}

/** Share of the area whose triangle faces away from its corners' normals. */
function foldedShare({ indices, positions, normals }: ReachShell): number {
  let folded = 0;
  let area = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [p, q, r] = [0, 1, 2].map((k) => positions.subarray(3 * indices[t + k], 3 * indices[t + k] + 3));
    const a = [0, 1, 2].map((k) => q[k] - p[k]);
    const b = [0, 1, 2].map((k) => r[k] - p[k]);
    const cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    const mean = [0, 1, 2].map((k) => [0, 1, 2].reduce((sum, c) => sum + normals[3 * indices[t + c] + k], 0));
    const size = Math.hypot(...cross);
    area += size;
    if (cross[0] * mean[0] + cross[1] * mean[1] + cross[2] * mean[2] < 0) folded += size;
  }
  return folded / area;
}

const quantile = (values: number[], share: number): number =>
  values.sort((a, b) => a - b)[Math.floor((values.length - 1) * share)];

describe('the shell', () => {
  it.each([8, 16, 30])(`is closed at %d cells, outward, and encloses the exact volume (seed ${SEED})`, (resolution) => {
    const random = seededRandom(SEED);
    const constraints = new Constraints();
    let shells = 0;
    const folded: number[] = [];
    const missing: number[] = [];
    for (let n = 0; n < 24; n++) {
      const { mechanism, R_BP } = n % 2 === 0 ? tiltedReach(random) : levelReach(random);
      const { volume, bounds } = measureReach(mechanism, R_BP);
      const shell = reachShell(mechanism, R_BP, { resolution });
      if (!bounds || shell.indices.length === 0) continue;
      shells++;
      expect(openEdges(shell)).toBe(0);
      expect(shell.volume).toBeGreaterThan(0);
      if (resolution === 30) {
        missing.push(Math.abs(shell.volume / volume - 1));
        folded.push(foldedShare(shell));
      }
      constraints.setMechanism(mechanism, R_BP);
      const size = Math.max(...bounds.high.map((high, axis) => high - bounds.low[axis]));
      for (let v = 0; v < shell.limits.length; v++) {
        const margin = leastMargin([constraints], shell.positions.subarray(3 * v, 3 * v + 3));
        expect(Math.abs(margin)).toBeLessThan((0.03 * size) / resolution);
      }
    }
    expect(shells).toBeGreaterThan(14);
    if (resolution < 30) return;
    // Only at horns thinner than a cell, whose two sides meet in one vertex, may a triangle face away from its corners' normals.
    expect(quantile(folded, 0.5)).toBeLessThan(0.003);
    expect(quantile(folded, 1)).toBeLessThan(0.04);
    expect(quantile(missing, 0.5)).toBeLessThan(0.003);
    expect(quantile(missing, 1)).toBeLessThan(0.05);
  });

  // The reach is a spherical sector; its rim is where the outer sphere meets the cone.
  it('keeps the sharp rim of a spherical sector', () => {
    const tilt = 35 * DEG;
    const joint = { tiltLimit: tilt, mount: { kind: 'square' } } as const;
    const mechanism = mechanismOf(ring(100, 40), ring(100, 80), 170, {
      legs: { min: 140, max: 200, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joint, platform: joint },
    });
    const shell = reachShell(mechanism, identity3(), { resolution: 24 });
    const exact = ((2 * Math.PI) / 3) * (1 - Math.cos(tilt)) * (200 ** 3 - 140 ** 3);
    expect(shell.volume / exact).toBeCloseTo(1, 2);
    let onRim = 0;
    for (let v = 0; v < shell.limits.length; v++) {
      const [x, y, z] = shell.positions.subarray(3 * v, 3 * v + 3);
      if (Math.hypot(Math.hypot(x, y) - 200 * Math.sin(tilt), z - 200 * Math.cos(tilt)) < 1e-3) onRim++;
    }
    expect(onRim).toBeGreaterThan(30);
    expect(shell.smallest.every((value) => value === 0)).toBe(true);
    expect(shell.triangleLimits.length).toBe(shell.indices.length / 3);
  });

  it('can leave out the mirror image below the base', () => {
    const joint = { tiltLimit: Math.PI, mount: { kind: 'square' } } as const;
    const mechanism = mechanismOf(ring(100, 20), ring(50, 20), 110, {
      legs: { min: 120, max: 150, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joint, platform: joint },
      home: poseFromAngles({ position: [0, 0, 110], roll: 0, pitch: 0, yaw: 0 }),
    });
    const both = reachShell(mechanism, identity3(), { resolution: 36 });
    const upper = reachShell(mechanism, identity3(), { resolution: 36, homeOnly: true });
    expect(openEdges(both)).toBe(0);
    expect(openEdges(upper)).toBe(0);
    expect(upper.volume / both.volume).toBeCloseTo(0.5, 1);
    for (let v = 0; v < upper.limits.length; v++) expect(upper.positions[3 * v + 2]).toBeGreaterThan(0);
  });
});
