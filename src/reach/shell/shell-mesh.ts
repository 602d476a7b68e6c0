import { CODE_COUNT, type Constraints, writeLimitNormal, writeMargins } from '../columns/constraints.ts';
import type { ShellGrid } from './shell-grid.ts';
import { eachLoop } from './shell-loops.ts';

/** Loops with more corners than this get a vertex in the middle even on one smooth limit: a fan over them may fold. */
const FAN_CORNERS = 4;

/** Steps of Newton's method toward the edge or corner where limits meet; it converges quadratically from within a cell. */
const MEETING_STEPS = 4;

/** Weight of staying put where the meeting limits leave a direction free, against unit normals. */
const STAY = 1e-6;

/** A middle vertex may leave its cell by this share of it; an edge that runs along a cell's face lies on either side. */
const CELL_OVERHANG = 0.25;

/**
 * A middle vertex whose least margin is off zero by more than this share of a cell has met limits that do not bind there; it goes to
 * the one that does, and if even that fails (several edges in one cell) to a corner of its loop.
 */
const OFF_BOUNDARY = 0.02;

/** A surface of triangles made from the crossings of a grid; the arrays are the result. */
export class ShellMesh {
  positions: number[] = [];
  normals: number[] = [];
  codes: number[] = [];
  readonly indices: number[] = [];
  readonly triangleCodes: number[] = [];
  /** Triangles over a link between two crossings on different limits, by that link; see {@link flip}. */
  private readonly creases = new Map<number, number>();
  private readonly joined = new Set<number>();
  private readonly margins = new Float64Array(CODE_COUNT);
  private readonly point = new Float64Array(3);
  private readonly normal = new Float64Array(3);
  private readonly start = new Float64Array(3);

  build(grid: ShellGrid, constraints: Constraints): void {
    this.positions = grid.positions;
    this.normals = grid.normals;
    this.codes = grid.codes;
    eachLoop(grid, (loop, node) => this.addLoop(grid, constraints, loop, node));
  }

  private addLoop(grid: ShellGrid, constraints: Constraints, loop: readonly number[], node: number): void {
    const { codes } = this;
    const smooth = loop.every((vertex) => codes[vertex] === codes[loop[0]]);
    if (smooth && loop.length <= FAN_CORNERS) {
      for (let i = 1; i + 1 < loop.length; i++) this.addTriangle(loop[0], loop[i], loop[i + 1], codes[loop[i]]);
      return;
    }
    const middle = this.addMiddle(grid, constraints, loop, node);
    loop.forEach((from, i) => {
      const to = loop[(i + 1) % loop.length];
      if (codes[from] === codes[to]) this.addTriangle(middle, from, to, codes[from]);
      else this.addCrease(middle, from, to);
    });
  }

  private addTriangle(a: number, b: number, c: number, code: number): void {
    this.indices.push(a, b, c);
    this.triangleCodes.push(code);
  }

  /**
   * A triangle over a link that an edge of the reach crosses. Its neighbour over the same link has a middle vertex on the same
   * edge; once both are there, the shared side is turned to run from middle to middle along the edge, unless these two are
   * joined already.
   */
  private addCrease(middle: number, from: number, to: number): void {
    const { codes, indices, triangleCodes, creases, joined } = this;
    const triangle = triangleCodes.length;
    this.addTriangle(middle, from, to, codes[from]);
    const other = creases.get(pairKey(from, to));
    if (other === undefined) {
      creases.set(pairKey(from, to), triangle);
      return;
    }
    const opposite = indices[3 * other];
    const pair = pairKey(middle, opposite);
    if (joined.has(pair)) return;
    joined.add(pair);
    indices[3 * triangle + 2] = opposite;
    indices[3 * other + 2] = middle;
    triangleCodes[triangle] = codes[from];
    triangleCodes[other] = codes[to];
  }

  /** A vertex inside the loop, on all limits that its corners lie on if they meet there, else on the one that binds. */
  private addMiddle(grid: ShellGrid, constraints: Constraints, loop: readonly number[], node: number): number {
    const { positions, normals, codes, point, normal, start } = this;
    start.fill(0);
    normal.fill(0);
    for (const vertex of loop) {
      for (let axis = 0; axis < 3; axis++) {
        start[axis] += positions[3 * vertex + axis] / loop.length;
        normal[axis] += normals[3 * vertex + axis];
      }
    }
    point.set(start);
    const own = [...new Set(loop.map((vertex) => codes[vertex]))];
    for (let step = 0; step < MEETING_STEPS; step++) this.stepToward(constraints, own);
    this.keepInCell(grid, node);
    let code = this.bindingCode(constraints);
    const cell = Math.min(...grid.step);
    if (Math.abs(this.margins[code]) > OFF_BOUNDARY * cell) {
      point.set(start);
      for (let step = 0; step < MEETING_STEPS; step++) this.stepToward(constraints, [this.bindingCode(constraints)]);
      this.keepInCell(grid, node);
      code = this.bindingCode(constraints);
      if (Math.abs(this.margins[code]) > OFF_BOUNDARY * cell) code = this.moveToNearest(loop);
    }
    const size = Math.hypot(normal[0], normal[1], normal[2]);
    if (size > 0) normals.push(normal[0] / size, normal[1] / size, normal[2] / size);
    else {
      writeLimitNormal(constraints, code, point, normal, 0);
      normals.push(normal[0], normal[1], normal[2]);
    }
    positions.push(point[0], point[1], point[2]);
    return codes.push(code) - 1;
  }

  /** Puts the point on that corner of the loop which is nearest to the loop's middle; returns its limit. */
  private moveToNearest(loop: readonly number[]): number {
    const { positions, codes, point, start } = this;
    let nearest = loop[0];
    let least = Number.POSITIVE_INFINITY;
    for (const vertex of loop) {
      let square = 0;
      for (let axis = 0; axis < 3; axis++) square += (positions[3 * vertex + axis] - start[axis]) ** 2;
      if (square < least) {
        least = square;
        nearest = vertex;
      }
    }
    for (let axis = 0; axis < 3; axis++) point[axis] = positions[3 * nearest + axis];
    return codes[nearest];
  }

  /** One Newton step: the shortest move d with n_i . d = margin_i for the outward normals of the given limits. */
  private stepToward(constraints: Constraints, own: readonly number[]): void {
    const { point, margins } = this;
    writeMargins(constraints, point[0], point[1], point[2], margins);
    const n = new Float64Array(3);
    // (sum n n^T + STAY I) d = sum n margin
    let [xx, yy, zz, xy, xz, yz] = [STAY, STAY, STAY, 0, 0, 0];
    let [bx, by, bz] = [0, 0, 0];
    for (const code of own) {
      writeLimitNormal(constraints, code, point, n, 0);
      xx += n[0] * n[0];
      yy += n[1] * n[1];
      zz += n[2] * n[2];
      xy += n[0] * n[1];
      xz += n[0] * n[2];
      yz += n[1] * n[2];
      bx += n[0] * margins[code];
      by += n[1] * margins[code];
      bz += n[2] * margins[code];
    }
    // Cofactors of the symmetric 3x3 matrix.
    const cxx = yy * zz - yz * yz;
    const cxy = xz * yz - xy * zz;
    const cxz = xy * yz - xz * yy;
    const determinant = xx * cxx + xy * cxy + xz * cxz;
    if (!(determinant > 0)) return;
    point[0] += (cxx * bx + cxy * by + cxz * bz) / determinant;
    point[1] += (cxy * bx + (xx * zz - xz * xz) * by + (xy * xz - xx * yz) * bz) / determinant;
    point[2] += (cxz * bx + (xy * xz - xx * yz) * by + (xx * yy - xy * xy) * bz) / determinant;
  }

  private keepInCell(grid: ShellGrid, node: number): void {
    const { low, step, stride } = grid;
    const place = [node % stride[1], Math.floor((node % stride[2]) / stride[1]), Math.floor(node / stride[2])];
    for (let axis = 0; axis < 3; axis++) {
      const from = low[axis] + (place[axis] - CELL_OVERHANG) * step[axis];
      const to = low[axis] + (place[axis] + 1 + CELL_OVERHANG) * step[axis];
      this.point[axis] = Math.min(to, Math.max(from, this.point[axis]));
    }
  }

  /** The limit with the least margin at the present point; leaves all margins in `margins`. */
  private bindingCode(constraints: Constraints): number {
    const { point, margins } = this;
    writeMargins(constraints, point[0], point[1], point[2], margins);
    let least = 0;
    for (let code = 1; code < CODE_COUNT; code++) if (margins[code] < margins[least]) least = code;
    return least;
  }
}

/** Pairs of vertices as one number; vertex numbers stay below 2^26. */
const pairKey = (a: number, b: number): number => Math.min(a, b) * 2 ** 26 + Math.max(a, b);
