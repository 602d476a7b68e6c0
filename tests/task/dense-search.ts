import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import type { JointShape } from '../../src/kinematics/joint-shapes.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Random, uniform } from '../../src/math/random.ts';
import type { Region } from '../../src/task/requirement.ts';

/**
 * A second implementation of what a region asks of legs and joints, for the tests only: poses by quaternions, angles by dot products,
 * and a search that tries a hundred times as many poses as the one it judges.
 */
export type Quaternion = readonly [number, number, number, number];

/** Where the platform is: the tool point and a unit quaternion. */
export interface DensePose {
  readonly t: readonly [number, number, number];
  readonly q: Quaternion;
}

const times = (a: Quaternion, b: Quaternion): Quaternion => [
  a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3],
  a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2],
  a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1],
  a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0],
];

const about = (axis: 1 | 2 | 3, angle: number): Quaternion => {
  const q: [number, number, number, number] = [Math.cos(angle / 2), 0, 0, 0];
  q[axis] = Math.sin(angle / 2);
  return q;
};

/** Fixed axes x, then y, then z. */
export const fromAngles = (roll: number, pitch: number, yaw: number): Quaternion =>
  times(about(3, yaw), times(about(2, pitch), about(1, roll)));

type Vector = readonly [number, number, number];

/** v + 2 w (u x v) + 2 u x (u x v) */
export function turn([w, x, y, z]: Quaternion, [a, b, c]: Vector): Vector {
  const p = y * c - z * b;
  const q = z * a - x * c;
  const r = x * b - y * a;
  return [a + 2 * (w * p + y * r - z * q), b + 2 * (w * q + z * p - x * r), c + 2 * (w * r + x * q - y * p)];
}

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** The limited angles of a joint [rad], by arc cosines and sines of dot products. */
function angles(shape: JointShape, d: Vector): readonly number[] {
  const clamp = (value: number) => Math.min(Math.max(value, -1), 1);
  if (shape.kind === 'ball') return [Math.acos(clamp(dot(d, shape.axis)))];
  if (shape.kind === 'rodEnd') return [Math.asin(clamp(Math.abs(dot(d, shape.bolt))))];
  const { axis, first } = shape;
  const out = dot(d, first);
  // the direction without its part along the first axis, against the mount axis
  const flat: Vector = [d[0] - out * first[0], d[1] - out * first[1], d[2] - out * first[2]];
  const size = Math.hypot(...flat);
  return [Math.acos(clamp(dot(flat, axis) / size)), Math.asin(clamp(Math.abs(out)))];
}

/** Lengths and angles of all legs at a pose: shortest, longest, then the largest of each limited angle, base first. */
export function demandsAt(mechanism: Mechanism, shapes: ReturnType<typeof jointShapes>, { t, q }: DensePose): number[] {
  const back: Quaternion = [q[0], -q[1], -q[2], -q[3]];
  const worst: number[] = [];
  let shortest = Infinity;
  let longest = 0;
  for (let leg = 0; leg < 6; leg++) {
    const at = (flat: Float64Array): Vector => [flat[3 * leg], flat[3 * leg + 1], flat[3 * leg + 2]];
    const a = at(mechanism.centres.base);
    const b = turn(q, at(mechanism.p_ToBi_P));
    const v: Vector = [t[0] + b[0] - a[0], t[1] + b[1] - a[1], t[2] + b[2] - a[2]];
    const length = Math.sqrt(dot(v, v));
    shortest = Math.min(shortest, length);
    longest = Math.max(longest, length);
    const u: Vector = [v[0] / length, v[1] / length, v[2] / length];
    const d = turn(back, [-u[0], -u[1], -u[2]]);
    [...angles(shapes.base[leg], u), ...angles(shapes.platform[leg], d)].forEach((angle, n) => {
      worst[n] = Math.max(worst[n] ?? 0, angle);
    });
  }
  return [shortest, longest, ...worst];
}

/** A pose of a region from six numbers in [-1, 1]; of a round one they are pulled into its ball and its cone. */
export function densePose(region: Region, n: readonly number[]): DensePose {
  if (region.kind === 'poses') throw new Error('a list is not searched');
  const { position, roll, pitch, yaw } = region.about;
  const moved = (by: Vector): DensePose['t'] => [position[0] + by[0], position[1] + by[1], position[2] + by[2]];
  if (region.kind === 'box') {
    const { half } = region;
    const [x, y, z] = half.position;
    return {
      t: moved([n[0] * x, n[1] * y, n[2] * z]),
      q: fromAngles(roll + n[3] * half.roll, pitch + n[4] * half.pitch, yaw + n[5] * half.yaw),
    };
  }
  const far = Math.max(1, Math.hypot(n[0], n[1], n[2]));
  const [x, y, z] = region.semiAxes;
  const side = Math.atan2(n[4], n[3]);
  const lean = region.tilt * Math.min(1, Math.hypot(n[3], n[4]));
  const tilt = times(about(3, side), times(about(2, lean), about(3, -side)));
  return {
    t: moved([(n[0] * x) / far, (n[1] * y) / far, (n[2] * z) / far]),
    q: times(fromAngles(roll, pitch, yaw), times(tilt, about(3, n[5] * region.yaw))),
  };
}

/** The numbers of each axis taken alone, or of all together. */
function alone(region: Region, n: number[], axis: number): number[] {
  if (region.kind !== 'box' || region.each === 'together') return n;
  return n.map((entry, k) => (k === axis ? entry : 0));
}

/** Steps of the lattice along each number, poses drawn at random, and the worst places from which to creep on. */
const LATTICE = [-1, -0.5, 0, 0.5, 1];
const CREEPS = 12;
const CREEP_STEPS = 250;

/**
 * The worst of every demand, turned so that the largest is worst (the shortest length is negative).
 * @param seen called with every pose drawn at random, for whatever else must hold at all of them
 */
export function denseSearch(
  mechanism: Mechanism,
  region: Region,
  random: Random,
  draws: number,
  seen: (demands: readonly number[], pose: DensePose) => void,
): readonly number[] {
  const shapes = jointShapes(mechanism);
  const kept: { value: number; n: number[]; axis: number }[][] = [];
  const look = (n: number[], axis: number): readonly number[] => {
    const demands = demandsAt(mechanism, shapes, densePose(region, alone(region, n, axis)));
    demands[0] = -demands[0];
    return demands;
  };
  const offer = (n: number[], axis: number) => {
    look(n, axis).forEach((value, k) => {
      kept[k] ??= [];
      const best = kept[k];
      if (best.length === CREEPS && value <= best[CREEPS - 1].value) return;
      best.push({ value, n, axis });
      best.sort((a, b) => b.value - a.value);
      best.length = Math.min(best.length, CREEPS);
    });
  };
  const lattice = (n: number[]) => {
    if (n.length === 6) offer(n, 0);
    else for (const step of LATTICE) lattice([...n, step]);
  };
  const one = region.kind === 'box' && region.each === 'alone';
  if (!one) lattice([]);
  for (let draw = 0; draw < draws; draw++) {
    const n = Array.from({ length: 6 }, () => uniform(random, -1, 1));
    const axis = draw % 6;
    offer(n, axis);
    const pose = densePose(region, alone(region, n, axis));
    seen(demandsAt(mechanism, shapes, pose), pose);
  }
  return kept.map((best, k) =>
    Math.max(
      ...best.map(({ value, n, axis }) => {
        let [here, most, step] = [n, value, 0.5];
        for (let trial = 0; trial < CREEP_STEPS; trial++) {
          const there = here.map((entry) => Math.min(1, Math.max(-1, entry + step * uniform(random, -1, 1))));
          const found = look(there, axis)[k];
          if (found > most) [here, most] = [there, found];
          else step *= 0.97;
        }
        return most;
      }),
    ),
  );
}
