import { NO_VERTEX, type ShellGrid } from './shell-grid.ts';

/** Cube corners are 0 to 7 = x + 2 y + 4 z. The four edges along x start at these corners, then those along y, then along z. */
const EDGE_CORNERS: readonly (readonly [number, number])[] = [
  [0, 1],
  [2, 3],
  [4, 5],
  [6, 7],
  [0, 2],
  [1, 3],
  [4, 6],
  [5, 7],
  [0, 4],
  [1, 5],
  [2, 6],
  [3, 7],
];

/** Corners of the six faces, counter-clockwise seen from outside the cube. */
const FACES: readonly (readonly [number, number, number, number])[] = [
  [0, 4, 6, 2],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 6, 7, 3],
  [0, 2, 3, 1],
  [4, 5, 7, 6],
];

const edgeBetween = (a: number, b: number): number =>
  EDGE_CORNERS.findIndex(([from, to]) => (from === a && to === b) || (from === b && to === a));

/** Edge between each corner of a face and the next. */
const FACE_EDGES: readonly (readonly number[])[] = FACES.map((face) =>
  face.map((corner, place) => edgeBetween(corner, face[(place + 1) % 4])),
);

/**
 * For each of the 256 patterns of inside corners: the closed loops that the boundary draws through the crossed edges, as edge
 * numbers, counter-clockwise seen from outside the reach.
 *
 * On a face every run of inside corners is cut off by one link. Where inside and outside corners alternate, each inside corner
 * is cut off alone; the rule looks at the face only, so both cells that share it agree, and the surface closes.
 */
const LOOPS: readonly (readonly (readonly number[])[])[] = Array.from({ length: 256 }, (_, pattern) => {
  const next = new Map<number, number>();
  FACES.forEach((face, f) => {
    for (let place = 0; place < 4; place++) {
      const isInside = (at: number) => (pattern >> face[at % 4]) & 1;
      if (isInside(place) || !isInside(place + 1)) continue;
      let last = place + 1;
      while (isInside(last + 1)) last++;
      next.set(FACE_EDGES[f][place], FACE_EDGES[f][last % 4]);
    }
  });
  const loops: number[][] = [];
  for (const from of [...next.keys()]) {
    if (!next.has(from)) continue;
    const loop: number[] = [];
    for (let edge: number | undefined = from; edge !== undefined; ) {
      const following: number | undefined = next.get(edge);
      if (following === undefined) break;
      loop.push(edge);
      next.delete(edge);
      edge = following;
    }
    loops.push(loop);
  }
  return loops;
});

/** What of a grid the loops are drawn through: nodes marked inside or outside, and a vertex on every edge that leads out. */
export type MarkedGrid = Pick<ShellGrid, 'cells' | 'stride' | 'inside' | 'crossings'>;

/** Calls `visit` with the vertices of every loop of every cell and the cell's lowest node. */
export function eachLoop(grid: MarkedGrid, visit: (vertices: readonly number[], node: number) => void): void {
  const { cells, stride, inside, crossings } = grid;
  const corner = Array.from(
    { length: 8 },
    (_, c) => (c & 1) * stride[0] + ((c >> 1) & 1) * stride[1] + ((c >> 2) & 1) * stride[2],
  );
  const vertices: number[] = [];
  for (let k = 0; k < cells[2]; k++) {
    for (let j = 0; j < cells[1]; j++) {
      for (let i = 0; i < cells[0]; i++) {
        const node = i + j * stride[1] + k * stride[2];
        let pattern = 0;
        for (let c = 0; c < 8; c++) pattern |= inside[node + corner[c]] << c;
        if (pattern === 0 || pattern === 255) continue;
        for (const loop of LOOPS[pattern]) {
          vertices.length = 0;
          for (const edge of loop) {
            const vertex = crossings[edge >> 2][node + corner[EDGE_CORNERS[edge][0]]];
            if (vertex !== NO_VERTEX) vertices.push(vertex);
          }
          visit(vertices, node);
        }
      }
    }
  }
}
