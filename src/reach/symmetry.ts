import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Constraints } from './constraints.ts';

/** A vertical three-fold axis through (x, y) [mm] with a mirror plane at `angle` [rad] and every 60 deg from it. */
export interface ThreeFoldMirror {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

/**
 * Apexes and axes count as each other's images when they agree to this share of the longest leg. A thousand times looser
 * than what rounding does to exact rings, and its effect on a volume is as small.
 */
const IMAGE_TOLERANCE = 1e-11;

const THIRD = (2 * Math.PI) / 3;

/** Leg that a third of a turn counter-clockwise brings leg i to, and the one that the mirror swaps it with. */
const TURNED = [2, 3, 4, 5, 0, 1];
const SWAPPED = [1, 0, 5, 4, 3, 2];

/**
 * The symmetry of two level rings without relative turn, if the limits have it: legs go to the legs two numbers on under a
 * third of a turn, and 1-2, 3-6, 4-5 are mirror images. Null when they do not (also for other numberings).
 */
export function threeFoldMirror(constraints: Constraints): ThreeFoldMirror | null {
  const { apexes, axes, max } = constraints;
  let x = 0;
  let y = 0;
  for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
    x += apexes[i] / LEG_COUNT;
    y += apexes[i + 1] / LEG_COUNT;
  }
  const tolerance = IMAGE_TOLERANCE * max;
  const cosine = Math.cos(THIRD);
  const sine = Math.sin(THIRD);
  if (!mapsOnto(apexes, 0, TURNED, x, y, cosine, sine, 1, tolerance)) return null;
  if (!mapsOnto(axes, 0, TURNED, 0, 0, cosine, sine, 1, IMAGE_TOLERANCE)) return null;
  if (!mapsOnto(axes, 18, TURNED, 0, 0, cosine, sine, 1, IMAGE_TOLERANCE)) return null;

  const angle = mirrorAngle(apexes, axes, x, y, tolerance);
  const cosine2 = Math.cos(2 * angle);
  const sine2 = Math.sin(2 * angle);
  if (!mapsOnto(apexes, 0, SWAPPED, x, y, cosine2, sine2, -1, tolerance)) return null;
  if (!mapsOnto(axes, 0, SWAPPED, 0, 0, cosine2, sine2, -1, IMAGE_TOLERANCE)) return null;
  if (!mapsOnto(axes, 18, SWAPPED, 0, 0, cosine2, sine2, -1, IMAGE_TOLERANCE)) return null;
  return { x, y, angle };
}

/** Direction halfway between what belongs to legs 1 and 2; any direction when all of it stands on the axis. */
function mirrorAngle(apexes: Float64Array, axes: Float64Array, x: number, y: number, tolerance: number): number {
  const alongX = apexes[0] + apexes[3] - 2 * x;
  const alongY = apexes[1] + apexes[4] - 2 * y;
  if (Math.hypot(alongX, alongY) > tolerance) return Math.atan2(alongY, alongX);
  for (const from of [0, 18]) {
    const axisX = axes[from] + axes[from + 3];
    const axisY = axes[from + 1] + axes[from + 4];
    if (Math.hypot(axisX, axisY) > IMAGE_TOLERANCE) return Math.atan2(axisY, axisX);
  }
  const acrossX = apexes[3] - apexes[0];
  const acrossY = apexes[4] - apexes[1];
  return Math.hypot(acrossX, acrossY) > tolerance ? Math.atan2(-acrossX, acrossY) : 0;
}

/**
 * Whether (x, y) -> (c dx - k s dy, s dx + k c dy) about a centre takes vector i to vector images[i], z kept.
 * k = 1 turns by the angle of (c, s); k = -1 mirrors in the line at half that angle.
 */
function mapsOnto(
  vectors: Float64Array,
  from: number,
  images: readonly number[],
  x: number,
  y: number,
  c: number,
  s: number,
  k: number,
  tolerance: number,
): boolean {
  for (let i = 0; i < LEG_COUNT; i++) {
    const a = from + 3 * i;
    const b = from + 3 * images[i];
    const dx = vectors[a] - x;
    const dy = vectors[a + 1] - y;
    if (Math.abs(c * dx - k * s * dy - (vectors[b] - x)) > tolerance) return false;
    if (Math.abs(s * dx + k * c * dy - (vectors[b + 1] - y)) > tolerance) return false;
    if (Math.abs(vectors[a + 2] - vectors[b + 2]) > tolerance) return false;
  }
  return true;
}
