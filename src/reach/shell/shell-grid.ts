import type { Box } from '../columns/bounding-box.ts';
import type { ColumnCutter, Direction } from '../columns/column-cutter.ts';
import { type Constraints, writeLimitNormal } from '../columns/constraints.ts';

/** Which allowed stretches of z columns count as inside. */
export type Chooser = (u: number, v: number, start: number, stop: number) => boolean;

/** No vertex on this grid edge. */
export const NO_VERTEX = -1;

/**
 * A regular grid over a box, its nodes marked inside or outside, and the exact crossing of the boundary on every grid edge whose
 * ends differ: the grid lines are columns, so crossings, normals and binding limits are closed-form.
 */
export class ShellGrid {
  /** Cells along x, y, z; one node more each. */
  readonly cells: readonly [number, number, number];
  readonly low: readonly [number, number, number];
  /** Cell edges [mm]. */
  readonly step: readonly [number, number, number];
  /** Index distance of neighbouring nodes along x, y, z. */
  readonly stride: readonly [number, number, number];
  readonly inside: Uint8Array;
  /** Vertex on the edge from a node toward +x, +y, +z; NO_VERTEX where there is none. */
  readonly crossings: readonly [Int32Array, Int32Array, Int32Array];
  /** Flat xyz. */
  readonly positions: number[] = [];
  readonly normals: number[] = [];
  readonly codes: number[] = [];
  private readonly point = new Float64Array(3);
  private readonly normal = new Float64Array(3);

  /** `box` is divided into `cells`; its faces should lie outside the reach. */
  constructor(box: Box, cells: readonly [number, number, number]) {
    this.cells = cells;
    this.low = [box[0], box[1], box[2]];
    this.step = [(box[3] - box[0]) / cells[0], (box[4] - box[1]) / cells[1], (box[5] - box[2]) / cells[2]];
    this.stride = [1, cells[0] + 1, (cells[0] + 1) * (cells[1] + 1)];
    const nodes = (cells[0] + 1) * (cells[1] + 1) * (cells[2] + 1);
    this.inside = new Uint8Array(nodes);
    const none = () => new Int32Array(nodes).fill(NO_VERTEX);
    this.crossings = [none(), none(), none()];
  }

  /** Marks the nodes and finds all crossings. Nodes on the faces of the box stay outside. */
  fill(cutter: ColumnCutter, constraints: Constraints, chosen: Chooser): void {
    this.markNodes(cutter, chosen);
    for (const direction of [0, 1, 2] as const) this.cross(cutter, constraints, direction);
  }

  private markNodes(cutter: ColumnCutter, chosen: Chooser): void {
    const { cells, low, step, stride, inside } = this;
    for (let j = 1; j < cells[1]; j++) {
      const y = low[1] + j * step[1];
      for (let i = 1; i < cells[0]; i++) {
        const x = low[0] + i * step[0];
        const count = cutter.cut(2, x, y);
        for (let n = 0; n < count; n++) {
          const start = cutter.starts[n];
          const stop = cutter.stops[n];
          const from = Math.max(1, Math.ceil((start - low[2]) / step[2]));
          const to = Math.min(cells[2] - 1, Math.floor((stop - low[2]) / step[2]));
          if (from > to || !chosen(x, y, start, stop)) continue;
          for (let k = from; k <= to; k++) inside[i + j * stride[1] + k * stride[2]] = 1;
        }
      }
    }
  }

  /** Finds the crossings on all grid lines along one axis. */
  private cross(cutter: ColumnCutter, constraints: Constraints, w: Direction): void {
    const u = (w + 1) % 3;
    const v = (w + 2) % 3;
    const { cells, low, step, stride, inside } = this;
    for (let b = 1; b < cells[v]; b++) {
      for (let a = 1; a < cells[u]; a++) {
        const first = a * stride[u] + b * stride[v];
        let count = -1;
        for (let c = 0; c < cells[w]; c++) {
          const node = first + c * stride[w];
          if (inside[node] === inside[node + stride[w]]) continue;
          if (count < 0) count = cutter.cut(w, low[u] + a * step[u], low[v] + b * step[v]);
          this.point[u] = low[u] + a * step[u];
          this.point[v] = low[v] + b * step[v];
          this.addCrossing(cutter, constraints, w, node, c, count);
        }
      }
    }
  }

  /** The end, toward the outer node, of the stretch that holds the inner node. */
  private addCrossing(
    cutter: ColumnCutter,
    constraints: Constraints,
    w: Direction,
    node: number,
    c: number,
    count: number,
  ): void {
    const { low, step, point, normal } = this;
    const opens = this.inside[node] === 0;
    const before = low[w] + c * step[w];
    const inner = opens ? before + step[w] : before;
    // Rounding may leave a node that lies on the boundary just outside its stretch: then the nearest stretch is meant.
    let best = 0;
    let nearest = Number.POSITIVE_INFINITY;
    for (let n = 0; n < count; n++) {
      const away = Math.max(cutter.starts[n] - inner, inner - cutter.stops[n], 0);
      if (away < nearest) {
        nearest = away;
        best = n;
      }
    }
    const end = opens ? cutter.starts[best] : cutter.stops[best];
    point[w] = Math.min(before + step[w], Math.max(before, count > 0 ? end : inner));
    const code = opens ? cutter.startCodes[best] : cutter.stopCodes[best];
    writeLimitNormal(constraints, code, point, normal, 0);
    this.crossings[w][node] = this.codes.length;
    this.positions.push(point[0], point[1], point[2]);
    this.normals.push(normal[0], normal[1], normal[2]);
    this.codes.push(code);
  }
}
