import { convexHull, type Point2 } from './convex-hull.ts';

/** Corners of every plate outline: enough for a circle that looks round, and always as many, so that buffers keep their size. */
export const OUTLINE_CORNERS = 96;

/** An outline in the plate's plane: corner places and outward unit normals, flat pairs, counter-clockwise [mm]. */
export interface PlateOutline {
  readonly corners: Float64Array;
  readonly normals: Float64Array;
}

/**
 * The convex hull of the joints seen from above, pushed outward by `margin` with round corners. Joints on one circle get
 * that circle instead, `margin` larger.
 * @param joints flat 3 numbers each, plate frame [mm]
 */
export function plateOutline(joints: ArrayLike<number>, margin: number, circleRadius: number | null): PlateOutline {
  if (circleRadius !== null) return circleOutline(circleRadius + margin);
  const hull = convexHull(
    Array.from({ length: joints.length / 3 }, (_, i): Point2 => [joints[3 * i], joints[3 * i + 1]]),
  );
  return roundedOutline(hull, margin);
}

/** A circle about the origin. */
export function circleOutline(radius: number): PlateOutline {
  const corners = new Float64Array(2 * OUTLINE_CORNERS);
  const normals = new Float64Array(2 * OUTLINE_CORNERS);
  for (let i = 0; i < OUTLINE_CORNERS; i++) {
    const angle = (2 * Math.PI * i) / OUTLINE_CORNERS;
    writeCorner(corners, normals, i, [0, 0], angle, radius);
  }
  return { corners, normals };
}

/** A hull with every edge pushed outward by `margin` and an arc of that radius about every corner. */
export function roundedOutline(hull: readonly Point2[], margin: number): PlateOutline {
  if (hull.length < 2) {
    const [cx, cy] = hull[0] ?? [0, 0];
    const { corners, normals } = circleOutline(margin);
    return { corners: corners.map((value, i) => value + (i % 2 === 0 ? cx : cy)), normals };
  }
  const corners = new Float64Array(2 * OUTLINE_CORNERS);
  const normals = new Float64Array(2 * OUTLINE_CORNERS);
  const count = hull.length;
  // outward direction of the edge that leaves corner i
  const outward = hull.map((from, i) => {
    const to = hull[(i + 1) % count];
    return Math.atan2(-(to[0] - from[0]), to[1] - from[1]);
  });
  const shares = shareCorners(hull, outward, margin);
  let index = 0;
  for (let i = 0; i < count; i++) {
    const first = outward[(i + count - 1) % count];
    const turn = leftTurn(first, outward[i]);
    const steps = shares[i];
    for (let step = 0; step < steps; step++) {
      const angle = first + (steps === 1 ? turn / 2 : (turn * step) / (steps - 1));
      writeCorner(corners, normals, index++, hull[i], angle, margin);
    }
  }
  return { corners, normals };
}

/** How many of the outline's corners each hull corner's arc gets: by its turn, at least two, together all of them. */
function shareCorners(hull: readonly Point2[], outward: readonly number[], margin: number): readonly number[] {
  const count = hull.length;
  const least = margin > 0 ? 2 : 1;
  const spare = OUTLINE_CORNERS - least * count;
  const turns = hull.map((_, i) => leftTurn(outward[(i + count - 1) % count], outward[i]));
  const whole = turns.reduce((sum, turn) => sum + turn, 0);
  let before = 0;
  let given = 0;
  return turns.map((turn) => {
    before += turn;
    const until = Math.round((spare * before) / whole);
    const share = least + until - given;
    given = until;
    return share;
  });
}

/** Turn to the left from one direction to another, 0 to 2 pi. */
const leftTurn = (from: number, to: number): number => {
  const turn = (to - from) % (2 * Math.PI);
  return turn < 0 ? turn + 2 * Math.PI : turn;
};

function writeCorner(
  corners: Float64Array,
  normals: Float64Array,
  index: number,
  about: Point2,
  angle: number,
  radius: number,
): void {
  const nx = Math.cos(angle);
  const ny = Math.sin(angle);
  corners[2 * index] = about[0] + radius * nx;
  corners[2 * index + 1] = about[1] + radius * ny;
  normals[2 * index] = nx;
  normals[2 * index + 1] = ny;
}
