import { LEG_COUNT } from '../../kinematics/layout.ts';
import { type Constraints, JOINT_COUNT } from './constraints.ts';

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
  const { apexes, max } = constraints;
  let x = 0;
  let y = 0;
  for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
    x += apexes[i] / LEG_COUNT;
    y += apexes[i + 1] / LEG_COUNT;
  }
  const tolerance = IMAGE_TOLERANCE * max;
  const cosine = Math.cos(THIRD);
  const sine = Math.sin(THIRD);
  if (!apexesMap(apexes, TURNED, x, y, cosine, sine, 1, tolerance)) return null;
  if (!conesMap(constraints, TURNED, cosine, sine, 1)) return null;

  const angle = mirrorAngle(constraints, x, y, tolerance);
  const cosine2 = Math.cos(2 * angle);
  const sine2 = Math.sin(2 * angle);
  if (!apexesMap(apexes, SWAPPED, x, y, cosine2, sine2, -1, tolerance)) return null;
  if (!conesMap(constraints, SWAPPED, cosine2, sine2, -1)) return null;
  return { x, y, angle };
}

/**
 * Direction halfway between what belongs to legs 1 and 2; any direction when all of it stands on the axis. A pair of cones about
 * opposite axes has no direction of its own; where nothing else has, a mirror may be missed.
 */
function mirrorAngle({ apexes, axes, firstCones }: Constraints, x: number, y: number, tolerance: number): number {
  const alongX = apexes[0] + apexes[3] - 2 * x;
  const alongY = apexes[1] + apexes[4] - 2 * y;
  if (Math.hypot(alongX, alongY) > tolerance) return Math.atan2(alongY, alongX);
  for (const joint of [0, LEG_COUNT]) {
    let axisX = 0;
    let axisY = 0;
    for (let cone = firstCones[joint]; cone < firstCones[joint + 2]; cone++) {
      axisX += axes[3 * cone];
      axisY += axes[3 * cone + 1];
    }
    if (Math.hypot(axisX, axisY) > IMAGE_TOLERANCE) return Math.atan2(axisY, axisX);
  }
  const acrossX = apexes[3] - apexes[0];
  const acrossY = apexes[4] - apexes[1];
  return Math.hypot(acrossX, acrossY) > tolerance ? Math.atan2(-acrossX, acrossY) : 0;
}

/**
 * Whether (x, y) -> (c dx - k s dy, s dx + k c dy) about a centre takes apex i to apex images[i], z kept.
 * k = 1 turns by the angle of (c, s); k = -1 mirrors in the line at half that angle.
 */
function apexesMap(
  apexes: Float64Array,
  images: readonly number[],
  x: number,
  y: number,
  c: number,
  s: number,
  k: number,
  tolerance: number,
): boolean {
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    if (!mapsOnto(apexes, 3 * leg, 3 * images[leg], x, y, c, s, k, tolerance)) return false;
  }
  return true;
}

/** The same for the cones of every joint: each has its image among those of the image joint, in any order. */
function conesMap(constraints: Constraints, images: readonly number[], c: number, s: number, k: number): boolean {
  const { firstCones } = constraints;
  for (let joint = 0; joint < JOINT_COUNT; joint++) {
    const image = images[joint % LEG_COUNT] + joint - (joint % LEG_COUNT);
    if (firstCones[joint + 1] - firstCones[joint] !== firstCones[image + 1] - firstCones[image]) return false;
    for (let cone = firstCones[joint]; cone < firstCones[joint + 1]; cone++) {
      if (!hasImage(constraints, cone, image, c, s, k)) return false;
    }
  }
  return true;
}

function hasImage(
  { axes, cosines, firstCones }: Constraints,
  cone: number,
  image: number,
  c: number,
  s: number,
  k: number,
): boolean {
  for (let other = firstCones[image]; other < firstCones[image + 1]; other++) {
    const alike = Math.abs(cosines[cone] - cosines[other]) <= IMAGE_TOLERANCE;
    if (alike && mapsOnto(axes, 3 * cone, 3 * other, 0, 0, c, s, k, IMAGE_TOLERANCE)) return true;
  }
  return false;
}

/** Whether that map takes the vector at `a` to the one at `b`. */
function mapsOnto(
  vectors: Float64Array,
  a: number,
  b: number,
  x: number,
  y: number,
  c: number,
  s: number,
  k: number,
  tolerance: number,
): boolean {
  const dx = vectors[a] - x;
  const dy = vectors[a + 1] - y;
  return (
    Math.abs(c * dx - k * s * dy - (vectors[b] - x)) <= tolerance &&
    Math.abs(s * dx + k * c * dy - (vectors[b + 1] - y)) <= tolerance &&
    Math.abs(vectors[a + 2] - vectors[b + 2]) <= tolerance
  );
}
