import { describe, expect, it } from 'vitest';
import type { CrossAxis, JointKind } from '../../src/kinematics/joint-kinds.ts';
import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import { jointMargin } from '../../src/kinematics/joint-shapes.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { seededRandom } from '../../src/math/random.ts';
import { identity3, type Mat3 } from '../../src/math/rotation.ts';
import { scale, subtract, type Vec3 } from '../../src/math/vec3.ts';
import { CODE_COUNT, Constraints, writeMargins } from '../../src/reach/columns/constraints.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { reachOverTilt } from '../../src/reach/columns/over-tilt.ts';
import { reachCloud } from '../../src/reach/shell/cloud.ts';
import { reachShell } from '../../src/reach/shell/shell.ts';
import { DEG, mechanismOf, ring, withKinds } from '../kinematics/designs.ts';
import { expectLegsToAgree } from '../reach/legs-agree.ts';
import { kindsReach } from '../reach/random-layouts.ts';

const level = identity3();

/** How much of its boundary's area a count of cells may be off by; see the note at the count of reach.test.ts. */
const STANDARD_ERRORS = 5;

describe('one shell with joints that all point alike (derived: level, equal rings, gap sum 120 deg: one apex)', () => {
  const legs = { min: 130, max: 190, barrelDiameter: 22, rodDiameter: 10 };
  const thickness = (legs.max ** 3 - legs.min ** 3) / 3;
  /** All six bolts or first axes along base +X. */
  const alongX: CrossAxis = { kind: 'angles', toward: new Float64Array(6), rise: 0 };

  function shell(limit: number, base: JointKind): Mechanism {
    const joint = { tiltLimit: limit, mount: { kind: 'square' } } as const;
    const free = { tiltLimit: Math.PI, mount: { kind: 'square' } } as const;
    const plain = mechanismOf(ring(90, 20), ring(90, 100), 160, { legs, joints: { base: joint, platform: free } });
    return withKinds(plain, base, { kind: 'ball' });
  }

  it.each([3, 13, 30, 60, 89])('rod ends that tilt %d deg leave a band: 4 pi sin t of all directions', (tilt) => {
    const { volume } = measureReach(shell(tilt * DEG, { kind: 'rodEnd', bolt: alongX }), level, {
      relativeError: 1e-3,
    });
    expect(Math.abs(volume / (4 * Math.PI * Math.sin(tilt * DEG) * thickness) - 1)).toBeLessThan(2e-3);
  });

  // d = first sin b + cos b (axis cos a + side sin a) has the area cos b da db
  it.each([
    [20, 15],
    [60, 40],
    [90, 30],
    [91, 30],
    [120, 45],
    [170, 20],
    [180, 35],
  ])('universal joints that turn %d deg and tilt %d deg leave 4 a sin b of all directions', (first, second) => {
    const kind = { kind: 'universal', first: alongX, secondLimit: second * DEG } as const;
    const { volume } = measureReach(shell(first * DEG, kind), level, { relativeError: 1e-3 });
    expect(Math.abs(volume / (4 * first * DEG * Math.sin(second * DEG) * thickness) - 1)).toBeLessThan(2e-3);
  });

  it.each(['tangential', 'radial'] as const)(
    'six rod ends at 60 deg to each other, bolts %s, leave what is counted',
    (axis) => {
      // the directions d with |d . bolt_i| <= sin t for all six bolts, counted on a sphere of even points
      const tilt = 35 * DEG;
      const mechanism = shell(tilt, { kind: 'rodEnd', bolt: { kind: axis } });
      const bolts = [-10, 10, 110, 130, 230, 250].map((azimuth) => (azimuth + (axis === 'radial' ? 0 : 90)) * DEG);
      const all = 400_000;
      let inside = 0;
      for (let n = 0; n < all; n++) {
        const z = 1 - (2 * n + 1) / all;
        const around = n * Math.PI * (3 - Math.sqrt(5));
        const flat = Math.sqrt(1 - z * z);
        const keeps = bolts.every((bolt) => Math.abs(flat * Math.cos(around - bolt)) <= Math.sin(tilt));
        if (keeps) inside++;
      }
      const { volume, symmetric } = measureReach(mechanism, level, { relativeError: 1e-3 });
      expect(symmetric).toBe(true);
      expect(Math.abs(volume / ((4 * Math.PI * inside * thickness) / all) - 1)).toBeLessThan(4e-3);
    },
  );
});

/** Whether every length and every joint's margin is kept at a point: by the margins of single joints, not by cones about apexes. */
function reaches(mechanism: Mechanism, R: Mat3, t: Vec3): boolean {
  const { centres, p_ToBi_P, legs } = mechanism;
  const shapes = shapesOf(mechanism);
  for (let leg = 0; leg < 6; leg++) {
    const i = 3 * leg;
    const [b0, b1, b2] = [p_ToBi_P[i], p_ToBi_P[i + 1], p_ToBi_P[i + 2]];
    const arm: Vec3 = [
      R[0] * b0 + R[1] * b1 + R[2] * b2,
      R[3] * b0 + R[4] * b1 + R[5] * b2,
      R[6] * b0 + R[7] * b1 + R[8] * b2,
    ];
    const foot: Vec3 = [centres.base[i], centres.base[i + 1], centres.base[i + 2]];
    const [x, y, z] = subtract([t[0] + arm[0], t[1] + arm[1], t[2] + arm[2]], foot);
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length < legs.min || length > legs.max) return false;
    const u = scale([x, y, z], 1 / length);
    if (jointMargin(shapes.base[leg], u) < 0) return false;
    const back: Vec3 = [
      -(R[0] * u[0] + R[3] * u[1] + R[6] * u[2]),
      -(R[1] * u[0] + R[4] * u[1] + R[7] * u[2]),
      -(R[2] * u[0] + R[5] * u[1] + R[8] * u[2]),
    ];
    if (jointMargin(shapes.platform[leg], back) < 0) return false;
  }
  return true;
}

const known = new WeakMap<Mechanism, ReturnType<typeof jointShapes>>();

function shapesOf(mechanism: Mechanism) {
  const found = known.get(mechanism) ?? jointShapes(mechanism);
  known.set(mechanism, found);
  return found;
}

describe('rod ends and universal joints of all sorts, against the margins of single joints', () => {
  it('the cones about the apexes say what the legs say (seed 141)', () => {
    expectLegsToAgree(seededRandom(141), 80, [-250, 250], kindsReach);
  });

  /** Cells along each side of the counted box. */
  const CELLS = 56;

  it('the measured volume is what a count of points finds, 30 layouts (seed 142)', { timeout: 120_000 }, () => {
    const random = seededRandom(142);
    let compared = 0;
    const ratios: number[] = [];
    for (let n = 0; compared < 30 && n < 200; n++) {
      const { mechanism, R_BP } = kindsReach(random);
      const { volume, bounds, boundary, errorEstimate } = measureReach(mechanism, R_BP, { relativeError: 1e-3 });
      if (!bounds || volume < 2000) continue;
      compared++;
      const low = bounds.low.map((x, k) => x - 0.02 * (bounds.high[k] - x));
      const step = bounds.high.map((x, k) => (1.04 * (x - bounds.low[k])) / CELLS);
      let count = 0;
      for (let cell = 0; cell < CELLS ** 3; cell++) {
        const i = cell % CELLS;
        const j = Math.floor(cell / CELLS) % CELLS;
        const k = Math.floor(cell / CELLS ** 2);
        const t: Vec3 = [low[0] + (i + 0.5) * step[0], low[1] + (j + 0.5) * step[1], low[2] + (k + 0.5) * step[2]];
        if (reaches(mechanism, R_BP, t)) count++;
      }
      const cell = step[0] * step[1] * step[2];
      const cut = (Math.sqrt(3) * boundary.area * Math.max(...step)) / cell;
      const allowed = STANDARD_ERRORS * 0.5 * Math.sqrt(cut) * cell + errorEstimate * volume;
      expect(Math.abs(count * cell - volume)).toBeLessThan(allowed);
      ratios.push(Math.abs((count * cell) / volume - 1));
    }
    expect(compared).toBe(30);
    // the count itself is good to a fraction of a percent, except for the thinnest reaches
    ratios.sort((one, other) => one - other);
    expect(ratios[15]).toBeLessThan(0.001);
  });

  it('cloud points keep every limit, shell vertices lie on one, and the shell holds the volume (seed 143)', () => {
    const random = seededRandom(143);
    const margins = new Float64Array(CODE_COUNT);
    const constraints = new Constraints();
    const shares: number[] = [];
    let compared = 0;
    for (let n = 0; n < 60; n++) {
      const { mechanism, R_BP } = kindsReach(random);
      const { volume, bounds } = measureReach(mechanism, R_BP);
      if (!bounds || volume < 20_000) continue;
      compared++;
      const cloud = reachCloud(mechanism, R_BP, { points: 300 });
      for (let point = 0; point < cloud.count; point++) {
        const [x, y, z] = cloud.positions.subarray(3 * point, 3 * point + 3);
        expect(reaches(mechanism, R_BP, [x, y, z])).toBe(true);
      }
      const { positions, volume: enclosed } = reachShell(mechanism, R_BP, { resolution: 32 });
      constraints.setMechanism(mechanism, R_BP);
      const cell = Math.max(...bounds.high.map((x, k) => x - bounds.low[k])) / 24;
      for (let vertex = 0; vertex < positions.length; vertex += 3) {
        writeMargins(constraints, positions[vertex], positions[vertex + 1], positions[vertex + 2], margins);
        expect(Math.abs(Math.min(...margins))).toBeLessThan(0.05 * cell);
      }
      expect(enclosed / volume).toBeLessThan(1.03);
      shares.push(enclosed / volume);
    }
    expect(compared).toBeGreaterThan(15);
    // what is thinner than a cell is missed, which is little of most
    shares.sort((one, other) => one - other);
    expect(shares[compared >> 1]).toBeGreaterThan(0.97);
  });

  it('what is reachable over a tilt range is reachable at each orientation of it (seed 144)', () => {
    const random = seededRandom(144);
    let compared = 0;
    for (let n = 0; n < 12; n++) {
      const { mechanism, R_BP } = kindsReach(random);
      const single = measureReach(mechanism, R_BP);
      const over = reachOverTilt(mechanism, { tilt: 0.08, yaw: 0, R_BP });
      expect(over.volume).toBeLessThanOrEqual(1.01 * single.volume);
      if (over.volume > 0) compared++;
    }
    expect(compared).toBeGreaterThan(3);
  });
});
