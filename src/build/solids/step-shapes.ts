import type { Vec3 } from '../../math/vec3.ts';
import type { Point } from '../joint-mounts.ts';
import { type BracketShape, flatAbove } from './bracket-shape.ts';
import type { PlateShape } from './plate-solid.ts';
import { against, along, type Edge, type Placing, type Side, StepSolid } from './step-text.ts';

const UP: Vec3 = [0, 0, 1];
const DOWN: Vec3 = [0, 0, -1];
const X: Vec3 = [1, 0, 0];

/** A flat plate with upright round holes. */
export function plateStep({ outline, bottom, top, holes }: PlateShape): StepSolid {
  const solid = new StepSolid();
  const upper: (readonly Side[])[] = [];
  const lower: (readonly Side[])[] = [];
  if (outline.kind === 'disc') {
    const rim = upright(solid, [0, 0], outline.radius, bottom, top, true);
    upper.push([along(rim.above)]);
    lower.push([against(rim.below)]);
  } else {
    const walls = prismWalls(
      solid,
      corners(outline.points),
      () => bottom,
      () => top,
    );
    upper.push(walls.above.map(along));
    lower.push([...walls.below].reverse().map(against));
  }
  for (const { centre, radius } of holes) {
    const hole = upright(solid, centre, radius, bottom, top, false);
    upper.push([against(hole.above)]);
    lower.push([along(hole.below)]);
  }
  solid.plane({ origin: [0, 0, top], axis: UP, from: X }, upper);
  solid.plane({ origin: [0, 0, bottom], axis: DOWN, from: X }, lower);
  return solid;
}

const corners = (flat: Float64Array): readonly Point[] =>
  Array.from({ length: flat.length / 2 }, (_, n) => [flat[2 * n], flat[2 * n + 1]]);

/** An upright cylinder face between two heights; the circles run counter-clockwise seen from above. */
function upright(
  solid: StepSolid,
  [x, y]: Point,
  radius: number,
  bottom: number,
  top: number,
  outward: boolean,
): { readonly below: Edge; readonly above: Edge } {
  const [low, high]: readonly [Vec3, Vec3] = [
    [x + radius, y, bottom],
    [x + radius, y, top],
  ];
  const [a, b] = [solid.vertex(low), solid.vertex(high)];
  const below = solid.circle(a, a, { origin: [x, y, bottom], axis: UP, from: X }, radius);
  const above = solid.circle(b, b, { origin: [x, y, top], axis: UP, from: X }, radius);
  const seam = solid.line(a, b, low, high);
  const placing: Placing = { origin: [x, y, bottom], axis: UP, from: X };
  solid.cylinder(placing, radius, cylinderLoop(below, above, seam, outward), outward);
  return { below, above };
}

const cylinderLoop = (below: Edge, above: Edge, seam: Edge, outward: boolean): readonly Side[] =>
  outward
    ? [along(below), along(seam), against(above), against(seam)]
    : [along(seam), along(above), against(seam), against(below)];

/** The upright faces of a prism over corners that run counter-clockwise, between two heights that depend on the place. */
function prismWalls(
  solid: StepSolid,
  outline: readonly Point[],
  bottom: (at: Point) => number,
  top: (at: Point) => number,
): { readonly below: readonly Edge[]; readonly above: readonly Edge[] } {
  const count = outline.length;
  const low = outline.map((at): Vec3 => [at[0], at[1], bottom(at)]);
  const high = outline.map((at): Vec3 => [at[0], at[1], top(at)]);
  const [lowVertices, highVertices] = [low.map((at) => solid.vertex(at)), high.map((at) => solid.vertex(at))];
  const ring = (vertices: readonly number[], places: readonly Vec3[]) =>
    places.map((at, n) => solid.line(vertices[n], vertices[(n + 1) % count], at, places[(n + 1) % count]));
  const [below, above] = [ring(lowVertices, low), ring(highVertices, high)];
  const posts = low.map((at, n) => solid.line(lowVertices[n], highVertices[n], at, high[n]));
  for (let n = 0; n < count; n++) {
    const next = (n + 1) % count;
    const [dx, dy] = [low[next][0] - low[n][0], low[next][1] - low[n][1]];
    const length = Math.hypot(dx, dy);
    solid.plane({ origin: low[n], axis: [dy / length, -dx / length, 0], from: [dx / length, dy / length, 0] }, [
      [along(below[n]), along(posts[next]), against(above[n]), against(posts[n])],
    ]);
  }
  return { below, above };
}

/** A bracket; see {@link BracketShape} for its frame. */
export function bracketStep(shape: BracketShape): StepSolid {
  const solid = new StepSolid();
  const { side, height, lean, flat, bolts } = shape;
  const half = side / 2;
  const [c, s] = [Math.cos(lean), Math.sin(lean)];
  const axis: Vec3 = [s, 0, c];
  const slope: Vec3 = [c, 0, -s];
  const outline: readonly Point[] = [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ];
  const walls = prismWalls(
    solid,
    outline,
    () => 0,
    ([x]) => flatAbove(shape, x),
  );
  const upper: (readonly Side[])[] = [walls.above.map(along)];
  const lower: (readonly Side[])[] = [[...walls.below].reverse().map(against)];
  const middle: Vec3 = [flat * s, 0, height + flat * c];
  upper.push([against(seatFaces(solid, shape, middle, axis, slope))]);
  for (const { at, radius, depth } of bolts) {
    if (depth === 'through') {
      const hole = throughBolt(solid, shape, at, radius, slope, axis);
      upper.push([against(hole.above)]);
      lower.push([along(hole.below)]);
    } else {
      const hole = upright(solid, at, radius, 0, depth, false);
      lower.push([along(hole.below)]);
      // the end of a blind hole looks down, into the hole
      solid.plane({ origin: [at[0], at[1], depth], axis: DOWN, from: X }, [[against(hole.above)]]);
    }
  }
  solid.plane({ origin: middle, axis, from: slope }, upper);
  solid.plane({ origin: [0, 0, 0], axis: DOWN, from: X }, lower);
  return solid;
}

/** Faces of the seat; gives the edge that it shares with the flat, counter-clockwise about the axis. */
function seatFaces(
  solid: StepSolid,
  { height, flat, seat }: BracketShape,
  middle: Vec3,
  axis: Vec3,
  slope: Vec3,
): Edge {
  const at = (base: Vec3, alongAxis: number, out: number): Vec3 => [
    base[0] + alongAxis * axis[0] + out * slope[0],
    base[1],
    base[2] + alongAxis * axis[2] + out * slope[2],
  ];
  if (seat.kind === 'cup') {
    const centre: Vec3 = [0, 0, height];
    const open = Math.sqrt(seat.radius ** 2 - flat ** 2);
    const rimPlace = at(middle, 0, open);
    const pole = at(centre, -seat.radius, 0);
    const [a, b] = [solid.vertex(rimPlace), solid.vertex(pole)];
    const rim = solid.circle(a, a, { origin: middle, axis, from: slope }, open);
    // from the rim down to the pole, in the plane of axis and slope: clockwise seen from +y where x is the slope and y the axis
    const seam = solid.circle(
      a,
      b,
      {
        origin: centre,
        axis: [0, 1, 0],
        from: [(rimPlace[0] - centre[0]) / seat.radius, 0, (rimPlace[2] - centre[2]) / seat.radius],
      },
      seat.radius,
    );
    solid.sphere({ origin: centre, axis, from: slope }, seat.radius, [along(rim), along(seam), against(seam)], false);
    return rim;
  }
  const end = at(middle, -seat.depth, 0);
  const [high, low] = [at(middle, 0, seat.radius), at(end, 0, seat.radius)];
  const [a, b] = [solid.vertex(low), solid.vertex(high)];
  const below = solid.circle(a, a, { origin: end, axis, from: slope }, seat.radius);
  const above = solid.circle(b, b, { origin: middle, axis, from: slope }, seat.radius);
  const seam = solid.line(a, b, low, high);
  solid.cylinder({ origin: end, axis, from: slope }, seat.radius, cylinderLoop(below, above, seam, false), false);
  // the bore's end looks up along the axis
  solid.plane({ origin: end, axis, from: slope }, [[along(below)]]);
  return above;
}

/** An upright hole that ends in the sloping flat: its upper edge is an ellipse. */
function throughBolt(
  solid: StepSolid,
  shape: BracketShape,
  [x, y]: Point,
  radius: number,
  slope: Vec3,
  axis: Vec3,
): { readonly below: Edge; readonly above: Edge } {
  const low: Vec3 = [x + radius, y, 0];
  const high: Vec3 = [x + radius, y, flatAbove(shape, x + radius)];
  const [a, b] = [solid.vertex(low), solid.vertex(high)];
  const below = solid.circle(a, a, { origin: [x, y, 0], axis: UP, from: X }, radius);
  const above = solid.ellipse(
    b,
    b,
    { origin: [x, y, flatAbove(shape, x)], axis, from: slope },
    radius / Math.cos(shape.lean),
    radius,
  );
  const seam = solid.line(a, b, low, high);
  solid.cylinder({ origin: [x, y, 0], axis: UP, from: X }, radius, cylinderLoop(below, above, seam, false), false);
  return { below, above };
}
