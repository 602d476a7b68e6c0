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
  const rim = (i: number, z: number, face: 'side' | 'cap'): number => {
    const angle = (2 * Math.PI * i) / sides;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const up = z === 0 ? -1 : 1;
    const n = face === 'side' ? ([c, s, 0] as const) : ([0, 0, up] as const);
    return writer.corner(c / 2, s / 2, z, n[0], n[1], n[2], c * slant, s * slant, up * slant);
  };
  for (let i = 0; i < sides; i++) {
    const [a, b, c, d] = [rim(i, 0, 'side'), rim(i + 1, 0, 'side'), rim(i + 1, 1, 'side'), rim(i, 1, 'side')];
    writer.triangle(a, b, c);
    writer.triangle(a, c, d);
  }
  for (const z of [0, 1]) {
    const up = z === 0 ? -1 : 1;
    const middle = writer.corner(0, 0, z, 0, 0, up, 0, 0, up);
    for (let i = 0; i < sides; i++) {
      const a = rim(i, z, 'cap');
      const b = rim(i + 1, z, 'cap');
      if (up > 0) writer.triangle(middle, a, b);
      else writer.triangle(middle, b, a);
    }
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
