/** What a mesh is when its corners are joined by place: closed or not, its volume, and the holes that go through it. */
export interface MeshFacts {
  readonly triangles: number;
  /** Every edge is run through once in each direction. */
  readonly closed: boolean;
  readonly volume: number;
  /** From Euler's formula V - E + F = 2 - 2 g of one closed surface. */
  readonly genus: number;
}

/** Reads binary STL as its definition says, without the code that wrote it. */
export function stlFacts(bytes: Uint8Array): MeshFacts {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.length !== 84 + 50 * count) throw new Error('The count does not fit the size of the file.');
  const corners: number[][] = [];
  for (let n = 0; n < count; n++)
    for (let corner = 0; corner < 3; corner++)
      corners.push([0, 1, 2].map((axis) => view.getFloat32(84 + 50 * n + 12 + 12 * corner + 4 * axis, true)));
  return facts(corners);
}

/** Three corners a triangle. */
export function facts(corners: readonly (readonly number[])[]): MeshFacts {
  const names = new Map<string, number>();
  const ids = corners.map((corner) => {
    const key = corner.join(' ');
    const known = names.get(key) ?? names.size;
    names.set(key, known);
    return known;
  });
  const runs = new Map<string, number>();
  let volume = 0;
  for (let n = 0; n < ids.length; n += 3) {
    for (let side = 0; side < 3; side++) {
      const [from, to] = [ids[n + side], ids[n + ((side + 1) % 3)]];
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      runs.set(`${key} ${from < to}`, (runs.get(`${key} ${from < to}`) ?? 0) + 1);
    }
    const [[ax, ay, az], [bx, by, bz], [cx, cy, cz]] = corners.slice(n, n + 3);
    volume += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  }
  const closed = [...runs].every(([key, times]) => {
    const other = key.endsWith('true') ? key.replace(/true$/, 'false') : key.replace(/false$/, 'true');
    return times === 1 && runs.get(other) === 1;
  });
  const faces = ids.length / 3;
  return { triangles: faces, closed, volume, genus: (2 - (names.size - runs.size / 2 + faces)) / 2 };
}
