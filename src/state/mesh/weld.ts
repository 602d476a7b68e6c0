/** Corners of triangles that coincide, counted once. */
export interface WeldedCorners {
  /** Where each different corner first occurs: its place among all corners. */
  readonly firsts: readonly number[];
  /** For every corner of every triangle, which of the different ones it is. */
  readonly corners: Uint32Array;
}

/** Finds the corners that are exactly the same; `triangles` has 9 numbers each. */
export function weldCorners(triangles: Float32Array): WeldedCorners {
  const seen = new Map<string, number>();
  const firsts: number[] = [];
  const corners = new Uint32Array(triangles.length / 3);
  for (let n = 0; n < corners.length; n++) {
    const key = `${triangles[3 * n]},${triangles[3 * n + 1]},${triangles[3 * n + 2]}`;
    let own = seen.get(key);
    if (own === undefined) {
      own = firsts.length;
      seen.set(key, own);
      firsts.push(n);
    }
    corners[n] = own;
  }
  return { firsts, corners };
}
