import type { LimitName } from '../../kinematics/limits.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { Box } from './bounding-box.ts';
import {
  CODE_COUNT,
  type Constraints,
  type LimitCode,
  legOf,
  limitOf,
  writeLimitNormal,
  writeMargins,
} from './constraints.ts';

/** Steps of the climb; each is this share of the one before, so the last are about 1e-6 of the first. */
const CLIMB_STEPS = 220;
const STEP_SHARE = 0.94;

/** Limits whose margins are within this share of the search box's size of the least are named as excluding each other. */
const SAME_MARGIN = 2e-3;

/** A point where the least margin is as large as a climb could make it. */
export interface DeepestPoint {
  readonly point: Vec3;
  /** Least margin over all limits there [mm]; negative: by so much the limits miss each other. */
  readonly margin: number;
}

/** The binding limit at a point: which set's, its code, and its margin [mm]. */
interface Binding {
  margin: number;
  set: number;
  code: LimitCode;
}

const margins = new Float64Array(CODE_COUNT);

/** Finds the least margin over several sets of limits at p. */
function writeBinding(sets: readonly Constraints[], p: ArrayLike<number>, binding: Binding): void {
  binding.margin = Number.POSITIVE_INFINITY;
  for (let set = 0; set < sets.length; set++) {
    writeMargins(sets[set], p[0], p[1], p[2], margins);
    for (let code = 0; code < CODE_COUNT; code++) {
      if (margins[code] >= binding.margin) continue;
      binding.margin = margins[code];
      binding.set = set;
      binding.code = code;
    }
  }
}

/** Least margin over all limits of several sets at a point [mm]. */
export function leastMargin(sets: readonly Constraints[], point: ArrayLike<number>): number {
  const binding: Binding = { margin: 0, set: 0, code: 0 };
  writeBinding(sets, point, binding);
  return binding.margin;
}

/**
 * Climbs the least margin from a start by subgradient steps of shrinking length: always straight away from the surface of the
 * limit that binds. Without inner spheres and cones past 90 deg the least margin is concave and the climb ends near its
 * maximum; with them it may end in a local one.
 */
export function deepestPoint(sets: readonly Constraints[], start: Vec3, reach: number): DeepestPoint {
  const p = Float64Array.from(start);
  const normal = new Float64Array(3);
  const binding: Binding = { margin: 0, set: 0, code: 0 };
  let best: DeepestPoint = { point: start, margin: Number.NEGATIVE_INFINITY };
  let step = reach / 4;
  for (let k = 0; k < CLIMB_STEPS; k++, step *= STEP_SHARE) {
    writeBinding(sets, p, binding);
    if (binding.margin > best.margin) best = { point: [p[0], p[1], p[2]], margin: binding.margin };
    writeLimitNormal(sets[binding.set], binding.code, p, normal, 0);
    for (let axis = 0; axis < 3; axis++) p[axis] -= step * normal[axis];
  }
  return best;
}

/** One limit that takes part in excluding all reach. */
export interface ExcludingLimit {
  readonly limit: LimitName;
  /** 1 to 6. */
  readonly leg: number;
}

/** The limits that hold each other off at a deepest point: those with about the least margin there. */
export function excludingLimits(sets: readonly Constraints[], deepest: DeepestPoint, box: Box): ExcludingLimit[] {
  const size = Math.max(sets[0].max, box[3] - box[0], box[4] - box[1], box[5] - box[2]);
  const slack = SAME_MARGIN * (Number.isFinite(size) ? size : sets[0].max);
  return limitsBelow(sets, deepest.point, deepest.margin + slack);
}

/** The limits with at most this margin [mm] at a point, in any of the sets, in the order of their codes. */
export function limitsBelow(sets: readonly Constraints[], point: Vec3, margin: number): ExcludingLimit[] {
  const low = new Uint8Array(CODE_COUNT);
  for (const set of sets) {
    writeMargins(set, point[0], point[1], point[2], margins);
    for (let code = 0; code < CODE_COUNT; code++) if (margins[code] <= margin) low[code] = 1;
  }
  const found: ExcludingLimit[] = [];
  low.forEach((is, code) => {
    if (is) found.push({ limit: limitOf(code), leg: legOf(code) });
  });
  return found;
}
