import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { Boundary } from '../columns/boundary.ts';
import { type Box, newBox } from '../columns/bounding-box.ts';
import { ColumnLattice } from '../columns/column-lattice.ts';
import { legOf, limitIndexOf } from '../columns/constraints.ts';
import { HomeParts } from '../columns/home-part.ts';
import { integrate } from '../columns/integration.ts';
import { FixedOrientation, type ReachProblem } from '../columns/problem.ts';
import { PoseQuality } from '../field/pose-quality.ts';
import { ShellGrid } from './shell-grid.ts';
import { ShellMesh } from './shell-mesh.ts';

/** The boundary of the reach at one orientation as a closed surface of triangles. */
export interface ReachShell {
  /**
   * Vertices, flat xyz, base axes [mm]. Those where grid lines leave the reach are exact; the extra ones on edges and corners lie
   * within 0.02 cells of the boundary.
   */
  readonly positions: Float64Array;
  /** Outward unit normals, flat xyz. */
  readonly normals: Float64Array;
  /** Three corners a triangle, counter-clockwise seen from outside. */
  readonly indices: Uint32Array;
  /** Smallest singular value of the scaled Jacobian at each vertex; 0 when singular. */
  readonly smallest: Float64Array;
  /** Its largest over its smallest singular value; Infinity when singular. */
  readonly condition: Float64Array;
  /** The limit that binds at each vertex (place in LIMIT_NAMES) and its leg (1 to 6). */
  readonly limits: Uint8Array;
  readonly legs: Uint8Array;
  /** The same for each triangle. */
  readonly triangleLimits: Uint8Array;
  readonly triangleLegs: Uint8Array;
  /** Inside the triangles [mm^3]; less than the exact volume by what is thinner than a cell. */
  readonly volume: number;
}

export interface ShellOptions {
  /** Cells along the longest side of the reach; the shorter sides get somewhat finer cells. */
  readonly resolution: number;
  /** Leaves out islands; everything is kept where home lies in no part. */
  readonly homeOnly?: boolean;
}

/** Error and columns of the look that finds the box and the parts. */
const LOOK_ERROR = 0.02;
const LOOK_COLUMNS = 3000;
const BOX_COLUMNS = 200;

/** Room between the reach and the faces of the grid, in cells: the faces must lie outside. */
const MARGIN_CELLS = 0.6;

/** Sides shorter than the longest get cells in proportion to this power of their length, so flat reaches keep their shape. */
const FLATNESS_POWER = 0.5;
const FEWEST_CELLS = 6;

/**
 * The boundary of the reach at one orientation: a grid whose edges are cut exactly, joined up cell by cell, with an extra vertex
 * on the exact edge or corner wherever limits meet inside a cell. Every edge belongs to exactly two triangles.
 */
export function reachShell(
  mechanism: Mechanism,
  R_BP: Mat3,
  options: ShellOptions,
  work: LongWork = neverStop,
): ReachShell {
  const problem = { ...new FixedOrientation().problem(mechanism, R_BP), symmetry: null };
  const lattice = new ColumnLattice();
  if (problem.possible) integrate(problem, lattice, LOOK_ERROR, LOOK_COLUMNS);
  if (lattice.hits === 0 || work.shouldStop()) return finished(new ShellMesh(), new PoseQuality(mechanism, R_BP));
  const parts = new HomeParts(problem, lattice);
  const box = options.homeOnly && parts.islands ? homeBox(parts, lattice) : boxOf(problem, lattice);
  const grid = new ShellGrid(...gridOver(box, options.resolution));
  const chosen =
    options.homeOnly && parts.islands
      ? (u: number, v: number, start: number, stop: number) => parts.holds(u, v, start, stop)
      : () => true;
  grid.fill(problem.cutter, problem.sets[0], chosen);
  work.report(1, 3);
  const mesh = new ShellMesh();
  if (!work.shouldStop()) mesh.build(grid, problem.sets[0]);
  work.report(2, 3);
  return finished(mesh, new PoseQuality(mechanism, R_BP));
}

/** Around home's part alone, with room for what lies between columns. */
function homeBox(parts: HomeParts, lattice: ColumnLattice): Box {
  const box = newBox();
  if (!parts.bounds) return box;
  box.set(parts.bounds.low);
  box.set(parts.bounds.high, 3);
  for (let axis = 0; axis < 3; axis++) {
    box[axis] -= lattice.spacing / 2;
    box[3 + axis] += lattice.spacing / 2;
  }
  return box;
}

function boxOf(problem: ReachProblem, lattice: ColumnLattice): Box {
  const boundary = new Boundary();
  const box = newBox();
  lattice.writeHitBox(null, box);
  for (let axis = 0; axis < 3; axis++) {
    box[axis] -= lattice.spacing;
    box[3 + axis] += lattice.spacing;
  }
  boundary.collect(problem.cutter, box, BOX_COLUMNS);
  boundary.offer(lattice, null);
  boundary.sharpen(problem);
  return boundary.box;
}

function gridOver(box: Box, resolution: number): [Box, [number, number, number]] {
  const sides = [box[3] - box[0], box[4] - box[1], box[5] - box[2]];
  const longest = Math.max(...sides);
  const cells = sides.map((side) =>
    Math.max(FEWEST_CELLS, Math.round(resolution * (side / longest) ** FLATNESS_POWER)),
  );
  const wide = newBox();
  sides.forEach((side, axis) => {
    const margin = (MARGIN_CELLS * side) / (cells[axis] - 2 * MARGIN_CELLS);
    wide[axis] = box[axis] - margin;
    wide[3 + axis] = box[3 + axis] + margin;
  });
  return [wide, [cells[0], cells[1], cells[2]]];
}

/** Adds what is known of each vertex and packs the result. */
function finished(mesh: ShellMesh, quality: PoseQuality): ReachShell {
  const count = mesh.codes.length;
  const positions = Float64Array.from(mesh.positions);
  const smallest = new Float64Array(count);
  const condition = new Float64Array(count);
  for (let vertex = 0; vertex < count; vertex++) {
    quality.at(positions[3 * vertex], positions[3 * vertex + 1], positions[3 * vertex + 2]);
    smallest[vertex] = quality.smallest;
    condition[vertex] = quality.condition;
  }
  const indices = Uint32Array.from(mesh.indices);
  return {
    positions,
    normals: Float64Array.from(mesh.normals),
    indices,
    smallest,
    condition,
    limits: Uint8Array.from(mesh.codes, limitIndexOf),
    legs: Uint8Array.from(mesh.codes, legOf),
    triangleLimits: Uint8Array.from(mesh.triangleCodes, limitIndexOf),
    triangleLegs: Uint8Array.from(mesh.triangleCodes, legOf),
    volume: enclosedVolume(positions, indices),
  };
}

/** Volume inside a closed surface by the divergence theorem: a sixth of the sum of a . (b x c) over its triangles. */
function enclosedVolume(p: Float64Array, indices: Uint32Array): number {
  let sum = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const a = 3 * indices[t];
    const b = 3 * indices[t + 1];
    const c = 3 * indices[t + 2];
    sum +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) +
      p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return sum / 6;
}
