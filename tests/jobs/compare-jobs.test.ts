import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { mechanismFromDocument, poseAnglesFromDocument } from '../../src/document/units.ts';
import { type ComparedLayout, comparedLayout, LINE_SAMPLES } from '../../src/jobs/compare-jobs.ts';
import { reachJobs } from '../../src/jobs/reach-jobs.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';

function compared(document: DesignDocument): ComparedLayout {
  const mechanism = mechanismFromDocument(document);
  return comparedLayout({
    spec: mechanism.spec,
    R_BP: mechanism.home.R_BP,
    home: poseAnglesFromDocument(document.home),
  });
}

function line(layout: ComparedLayout, freedom: string) {
  const found = layout.lines?.find((one) => one.freedom === freedom);
  if (!found) throw new Error(`no line along ${freedom}`);
  return found;
}

/** The plain layout with joints that never stop. */
const freeJoints: DesignDocument = {
  ...emptyDesign(),
  joints: {
    base: { kind: 'ball', tilt_deg: 180, mount: 'square' },
    platform: { kind: 'ball', tilt_deg: 180, mount: 'square' },
  },
};

/** Base and platform joint angles of the plain layout [deg], written out by hand from the leg order. */
const BASE = [-10, 10, 110, 130, 230, 250];
const PLATFORM = [-50, 50, 70, 170, 190, 290];
const rad = (degrees: number) => (degrees * Math.PI) / 180;

/**
 * Second implementation: 1 / smallest singular value as the root of the smallest eigenvalue of J^T J (ml-matrix), rings of 100 and
 * 70 mm, rotations divided by 70 mm.
 */
function magnificationByEigenvalues(x: number, y: number, z: number, roll: number, pitch: number, yaw: number): number {
  const R = rotationFromAngles({ roll, pitch, yaw });
  const rows = BASE.map((angle, leg) => {
    const a = [100 * Math.cos(rad(angle)), 100 * Math.sin(rad(angle)), 0];
    const p = [70 * Math.cos(rad(PLATFORM[leg])), 70 * Math.sin(rad(PLATFORM[leg])), 0];
    const b = [0, 1, 2].map((i) => R[3 * i] * p[0] + R[3 * i + 1] * p[1]);
    const s = [x + b[0] - a[0], y + b[1] - a[1], z + b[2] - a[2]];
    const length = Math.hypot(...s);
    const u = s.map((part) => part / length);
    const moment = [b[1] * u[2] - b[2] * u[1], b[2] * u[0] - b[0] * u[2], b[0] * u[1] - b[1] * u[0]];
    return [...u, ...moment.map((part) => part / 70)];
  });
  const J = new Matrix(rows);
  const { realEigenvalues } = new EigenvalueDecomposition(J.transpose().mmul(J), { assumeSymmetric: true });
  return 1 / Math.sqrt(Math.min(...realEigenvalues));
}

describe('the lines through home', () => {
  const layout = compared(freeJoints);

  it('end straight up and down where the law of cosines says', () => {
    // L^2 = 100^2 + 70^2 - 2 100 70 cos 40 deg + z^2 for every leg of the level layout (derived)
    const plan = 100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(rad(40));
    const z = line(layout, 'z');
    expect(z.home).toBe(150);
    expect(z.values[0]).toBeCloseTo(Math.sqrt(120 ** 2 - plan), 5);
    expect(z.values[LINE_SAMPLES - 1]).toBeCloseTo(Math.sqrt(200 ** 2 - plan), 5);
    expect([z.down?.limit, z.up?.limit]).toEqual(['legTooShort', 'legTooLong']);
  });

  it('end in yaw where the law of cosines says', () => {
    // six legs span 40 deg + yaw or 40 deg - yaw in plan; the longest reaches 200 mm (derived)
    const cosine = (100 ** 2 + 70 ** 2 + 150 ** 2 - 200 ** 2) / (2 * 100 * 70);
    const stop = Math.acos(cosine) - rad(40);
    const yaw = line(layout, 'yaw');
    expect(yaw.values[LINE_SAMPLES - 1]).toBeCloseTo(stop, 5);
    expect(yaw.values[0]).toBeCloseTo(-stop, 5);
  });

  it.each(['x', 'y', 'z', 'roll', 'pitch', 'yaw'])('give the magnification along %s', (freedom) => {
    const { values, magnifications } = line(layout, freedom);
    const index = ['x', 'y', 'z', 'roll', 'pitch', 'yaw'].indexOf(freedom);
    for (let i = 0; i < LINE_SAMPLES; i += 10) {
      const pose: [number, number, number, number, number, number] = [0, 0, 150, 0, 0, 0];
      pose[index] = values[i];
      const expected = magnificationByEigenvalues(...pose);
      expect(Math.abs(magnifications[i] / expected - 1)).toBeLessThan(1e-9);
    }
  });

  it('are infinite throughout for a layout that is singular everywhere', () => {
    const even = compared(DEMOS.even);
    const all = even.lines?.flatMap(({ magnifications }) => Array.from(magnifications)) ?? [];
    expect(all).toHaveLength(6 * LINE_SAMPLES);
    expect(all.every((value) => value === Number.POSITIVE_INFINITY)).toBe(true);
  });

  it('do not exist where home itself breaks limits', () => {
    const out = compared({ ...freeJoints, home: { ...freeJoints.home, position_mm: [0, 0, 400] } });
    expect(out.lines).toBeNull();
    expect(out.level.volume).toBeGreaterThan(0);
  });
});

describe('the reach compared', () => {
  it('is the one that the verdict states', () => {
    const mechanism = mechanismFromDocument(DEMOS.steady);
    const question = { spec: mechanism.spec, R_BP: mechanism.home.R_BP };
    expect(compared(DEMOS.steady).level).toEqual(reachJobs.summary(question));
  });

  it('has a shell that encloses nearly all of it', () => {
    const { level, shell } = compared(DEMOS.steady);
    const { positions: p, indices } = shell;
    let sum = 0;
    for (let t = 0; t < indices.length; t += 3) {
      // six times the volume of a tetrahedron with the origin (divergence theorem)
      const [a, b, c] = [0, 1, 2].map((k) => Array.from(p.subarray(3 * indices[t + k], 3 * indices[t + k] + 3)));
      sum +=
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    expect(sum / 6 / level.volume).toBeGreaterThan(0.97);
    expect(sum / 6 / level.volume).toBeLessThan(1.01);
  });

  it('is empty without complaint where nothing is reachable', () => {
    const out = compared({
      ...freeJoints,
      joints: { ...freeJoints.joints, base: { ...freeJoints.joints.base, tilt_deg: 1 } },
    });
    expect(out.level.volume).toBe(0);
    expect(out.shell.indices).toHaveLength(0);
  });
});
