import { add, cross, dot, scale, subtract, unit, type Vec3 } from '../../math/vec3.ts';

/** Where a camera stands and what it looks at [mm], with Z up. */
export interface Framing {
  readonly target: Vec3;
  /** Unit direction from the target to the camera. */
  readonly toCamera: Vec3;
  /** Distance of the camera from the target. */
  readonly distance: number;
}

/** Opening of the view: half the vertical angle [rad] and width over height. */
export interface Lens {
  readonly halfAngle: number;
  readonly aspect: number;
}

/** Parts of the picture, as shares of its height or width, that lie under other things on screen. */
export interface Insets {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Distance kept where there is nothing but a point to look at [mm]. */
const LEAST_DISTANCE = 1e-3;

export const NO_INSETS: Insets = { top: 0, bottom: 0, left: 0, right: 0 };

/** Camera axes for a direction of view: right, up, and toward the camera. Straight up and down, up is +Y. */
export function viewAxes(toCamera: Vec3): readonly [Vec3, Vec3, Vec3] {
  const steep = Math.hypot(toCamera[0], toCamera[1]) < 1e-6;
  const right = steep ? ([1, 0, 0] as const) : unit(cross([0, 0, 1], toCamera));
  return [right, cross(toCamera, right), toCamera];
}

/**
 * The nearest place for a camera that looks along -toCamera and still sees every point within the picture less its insets.
 *
 * In camera axes a point (x, y, z) seen from (cx, cy, cz) keeps inside the right edge when x - cx <= k (cz - z), so the edge
 * alone asks for cx + k cz >= max(x + k z); the left edge for -cx + k' cz >= max(-x + k' z). Their sum gives the least cz, their
 * difference cx; likewise for top and bottom. The camera takes the larger cz and stands in the middle of what is left. The
 * target lies halfway between the nearest and the farthest point, so that the view turns about the middle of what it holds.
 */
export function fitView(points: readonly Vec3[], toCamera: Vec3, lens: Lens, insets: Insets = NO_INSETS): Framing {
  const [right, up] = viewAxes(toCamera);
  const tall = Math.tan(lens.halfAngle);
  const wide = tall * lens.aspect;
  // slopes of the four edges of the free part of the picture
  const slopes = [
    wide * (1 - 2 * insets.right),
    wide * (1 - 2 * insets.left),
    tall * (1 - 2 * insets.top),
    tall * (1 - 2 * insets.bottom),
  ];
  const most = [0, 0, 0, 0].fill(Number.NEGATIVE_INFINITY);
  let nearest = Number.NEGATIVE_INFINITY;
  let farthest = Number.POSITIVE_INFINITY;
  for (const point of points) {
    const x = dot(point, right);
    const y = dot(point, up);
    const z = dot(point, toCamera);
    most[0] = Math.max(most[0], x + slopes[0] * z);
    most[1] = Math.max(most[1], -x + slopes[1] * z);
    most[2] = Math.max(most[2], y + slopes[2] * z);
    most[3] = Math.max(most[3], -y + slopes[3] * z);
    nearest = Math.max(nearest, z);
    farthest = Math.min(farthest, z);
  }
  const acrossHeight = (most[0] + most[1]) / (slopes[0] + slopes[1]);
  const alongHeight = (most[2] + most[3]) / (slopes[2] + slopes[3]);
  const cz = Math.max(acrossHeight, alongHeight);
  const cx = (most[0] - slopes[0] * cz - (most[1] - slopes[1] * cz)) / 2;
  const cy = (most[2] - slopes[2] * cz - (most[3] - slopes[3] * cz)) / 2;
  const camera = add(add(scale(right, cx), scale(up, cy)), scale(toCamera, cz));
  const distance = Math.max(cz - (nearest + farthest) / 2, LEAST_DISTANCE);
  return { target: subtract(camera, scale(toCamera, distance)), toCamera, distance };
}

/**
 * The same for a parallel projection: `distance` is then the one at which a lens would show as much at the target.
 */
export function fitParallel(points: readonly Vec3[], toCamera: Vec3, lens: Lens, insets: Insets = NO_INSETS): Framing {
  const [right, up] = viewAxes(toCamera);
  const tall = Math.tan(lens.halfAngle);
  const low = [0, 0, 0].fill(Number.POSITIVE_INFINITY);
  const high = [0, 0, 0].fill(Number.NEGATIVE_INFINITY);
  for (const point of points) {
    [right, up, toCamera].forEach((axis, k) => {
      const along = dot(point, axis);
      low[k] = Math.min(low[k], along);
      high[k] = Math.max(high[k], along);
    });
  }
  const across = (high[0] - low[0]) / 2 / (lens.aspect * tall * (1 - insets.left - insets.right));
  const along = (high[1] - low[1]) / 2 / (tall * (1 - insets.top - insets.bottom));
  const distance = Math.max(across, along, LEAST_DISTANCE);
  const cx = (low[0] + high[0]) / 2 + distance * tall * lens.aspect * (insets.right - insets.left);
  const cy = (low[1] + high[1]) / 2 + distance * tall * (insets.top - insets.bottom);
  const middle = (low[2] + high[2]) / 2;
  return { target: add(add(scale(right, cx), scale(up, cy)), scale(toCamera, middle)), toCamera, distance };
}
