/** Corners of triangles that coincide, counted once. */
export interface WeldedCorners {
  /** Where each different corner first occurs: its place among all corners. */
  readonly firsts: readonly number[];
  /** For every corner of every triangle, which of the different ones it is. */
  readonly corners: Uint32Array;
}

/** Free place in a table of different corners. */
const FREE = -1;

/** Odd constants that spread coordinates over the table (golden ratio and its like, as in 32-bit hashes). */
const [SPREAD_X, SPREAD_Y, SPREAD_Z] = [0x9e3779b1, 0x85ebca6b, 0xc2b2ae35];

/** Finds the corners that are exactly the same; `triangles` has 9 finite numbers each. */
export function weldCorners(triangles: Float32Array): WeldedCorners {
  const count = triangles.length / 3;
  const firsts: number[] = [];
  const corners = new Uint32Array(count);
  // a table twice as long as there are corners, searched on from where a corner's bits point
  const size = 2 ** Math.ceil(Math.log2(2 * Math.max(count, 1)));
  const table = new Int32Array(size).fill(FREE);
  // adding 0 turns -0 into 0, which is the same place
  const places = new Float32Array(triangles.length);
  for (let i = 0; i < places.length; i++) places[i] = triangles[i] + 0;
  const bits = new Int32Array(places.buffer);
  for (let n = 0; n < count; n++) {
    const x = bits[3 * n];
    const y = bits[3 * n + 1];
    const z = bits[3 * n + 2];
    let hash = Math.imul(x, SPREAD_X) ^ Math.imul(y, SPREAD_Y) ^ Math.imul(z, SPREAD_Z);
    hash = Math.imul(hash ^ (hash >>> 15), SPREAD_X);
    let at = (hash ^ (hash >>> 13)) & (size - 1);
    for (; table[at] !== FREE; at = (at + 1) & (size - 1)) {
      const first = 3 * firsts[table[at]];
      if (bits[first] === x && bits[first + 1] === y && bits[first + 2] === z) break;
    }
    if (table[at] === FREE) {
      table[at] = firsts.length;
      firsts.push(n);
    }
    corners[n] = table[at];
  }
  return { firsts, corners };
}
