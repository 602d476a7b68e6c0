/** A closed triangle mesh with two normals a corner: of its face, for light, and one that joins faces, for the outline. */
export interface SolidMesh {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  readonly outlineNormals: Float64Array;
  readonly indices: Uint16Array;
}

/** Collects corners and triangles. */
class MeshWriter {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly outline: number[] = [];
  private readonly indices: number[] = [];

  corner(
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    ox: number,
    oy: number,
    oz: number,
  ): number {
    this.positions.push(x, y, z);
    this.normals.push(nx, ny, nz);
    this.outline.push(ox, oy, oz);
    return this.positions.length / 3 - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.indices.push(a, b, c);
  }

  mesh(): SolidMesh {
    return {
      positions: Float64Array.from(this.positions),
      normals: Float64Array.from(this.normals),
      outlineNormals: Float64Array.from(this.outline),
      indices: Uint16Array.from(this.indices),
    };
  }
}

/** A cylinder of diameter 1 about +Z from z = 0 to z = 1. */
export function unitCylinder(sides: number): SolidMesh {
  const writer = new MeshWriter();
  const slant = Math.SQRT1_2;
  const ring = (z: number, face: 'side' | 'cap'): readonly number[] =>
    Array.from({ length: sides }, (_, i) => {
      const angle = (2 * Math.PI * i) / sides;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      const up = z === 0 ? -1 : 1;
      const n = face === 'side' ? ([c, s, 0] as const) : ([0, 0, up] as const);
      return writer.corner(c / 2, s / 2, z, n[0], n[1], n[2], c * slant, s * slant, up * slant);
    });
  const [low, high] = [ring(0, 'side'), ring(1, 'side')];
  const [bottom, top] = [ring(0, 'cap'), ring(1, 'cap')];
  for (let i = 0; i < sides; i++) {
    const next = (i + 1) % sides;
    writer.triangle(low[i], low[next], high[next]);
    writer.triangle(low[i], high[next], high[i]);
    // caps as fans about their first corner
    if (i === 0 || next === 0) continue;
    writer.triangle(bottom[0], bottom[next], bottom[i]);
    writer.triangle(top[0], top[i], top[next]);
  }
  return writer.mesh();
}

/** A ball of diameter 1 about the origin. */
export function unitBall(sides: number): SolidMesh {
  const writer = new MeshWriter();
  const rings = Math.ceil(sides / 2);
  const place = (ring: number, i: number): number => {
    const down = (Math.PI * ring) / rings;
    const angle = (2 * Math.PI * i) / sides;
    const x = Math.sin(down) * Math.cos(angle);
    const y = Math.sin(down) * Math.sin(angle);
    const z = Math.cos(down);
    return writer.corner(x / 2, y / 2, z / 2, x, y, z, x, y, z);
  };
  const grid = Array.from({ length: rings + 1 }, (_, ring) =>
    Array.from({ length: sides + 1 }, (_, i) => place(ring, i)),
  );
  for (let ring = 0; ring < rings; ring++) {
    for (let i = 0; i < sides; i++) {
      const [a, b] = [grid[ring][i], grid[ring][i + 1]];
      const [c, d] = [grid[ring + 1][i + 1], grid[ring + 1][i]];
      if (ring > 0) writer.triangle(a, c, b);
      if (ring < rings - 1) writer.triangle(a, d, c);
    }
  }
  return writer.mesh();
}
