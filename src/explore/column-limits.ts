import type { ColumnBatch } from './column-batch.ts';

/**
 * The limits that cut vertical columns, kind by kind, in flat arrays. Each kind moves one end of every column of a batch. A limit
 * is compared by squares with the end found so far, so that a root is drawn only where it moves the end; it stays in
 * registers while it passes along the columns, and the columns where it binds lie together.
 */
export abstract class LimitSet {
  count = 0;
  protected readonly data: Float64Array;

  constructor(
    most: number,
    protected readonly stride: number,
  ) {
    this.data = new Float64Array((most + 1) * stride);
  }

  clear(): void {
    this.count = 0;
  }

  /** Moves the end of every column that a limit of this kind cuts. */
  abstract cut(batch: ColumnBatch): void;

  /**
   * End of the data for loops that take two limits at a time, so that a column's place and end are loaded once for both: an odd
   * last limit is doubled.
   */
  protected evenEnd(): number {
    const { data, stride, count } = this;
    const end = count * stride;
    if (count % 2 === 0) return end;
    for (let k = 0; k < stride; k++) data[end + k] = data[end - stride + k];
    return end + stride;
  }
}

/** Numbers kept of a sphere: its centre, the apex. */
const SPHERE_STRIDE = 3;

/** Spheres of the longest leg: the top is z + sqrt(L^2 - d^2), or the apex itself outside of the sphere's shadow. */
export class SphereTops extends LimitSet {
  radius2 = 0;

  constructor(most: number) {
    super(most, SPHERE_STRIDE);
  }

  add(x: number, y: number, z: number): void {
    const i = SPHERE_STRIDE * this.count++;
    this.data[i] = x;
    this.data[i + 1] = y;
    this.data[i + 2] = z;
  }

  cut({ count, x, y, top }: ColumnBatch): void {
    const { data, radius2 } = this;
    const end = this.evenEnd();
    for (let i = 0; i < end; i += 2 * SPHERE_STRIDE) {
      const x0 = data[i];
      const y0 = data[i + 1];
      const z0 = data[i + 2];
      const x1 = data[i + 3];
      const y1 = data[i + 4];
      const z1 = data[i + 5];
      for (let column = 0; column < count; column++) {
        const px = x[column];
        const py = y[column];
        const before = top[column];
        let now = before;
        const q0 = radius2 - (px - x0) * (px - x0) - (py - y0) * (py - y0);
        const q1 = radius2 - (px - x1) * (px - x1) - (py - y1) * (py - y1);
        const t0 = now - z0;
        if (t0 > 0 && q0 < t0 * t0) now = z0 + (q0 > 0 ? Math.sqrt(q0) : 0);
        const t1 = now - z1;
        if (t1 > 0 && q1 < t1 * t1) now = z1 + (q1 > 0 ? Math.sqrt(q1) : 0);
        if (now < before) top[column] = now;
      }
    }
  }

  /** Centre of the apexes in plan: `axis` 0 for x, 1 for y [mm]. */
  middle(axis: 0 | 1): number {
    let sum = 0;
    for (let n = 0; n < this.count; n++) sum += this.data[SPHERE_STRIDE * n + axis];
    return sum / this.count;
  }

  /** Whether (x, y) lies within every sphere's shadow. */
  covers(x: number, y: number): boolean {
    for (let i = 0; i < SPHERE_STRIDE * this.count; i += SPHERE_STRIDE) {
      if ((x - this.data[i]) ** 2 + (y - this.data[i + 1]) ** 2 > this.radius2) return false;
    }
    return true;
  }

  /** The stretch of a ray (unit direction) within every shadow, written to `span` as from, to [mm]; false when there is none. */
  shadowAlong(x: number, y: number, ex: number, ey: number, span: Float64Array): boolean {
    const { data, count, radius2 } = this;
    let from = 0;
    let to = Number.POSITIVE_INFINITY;
    for (let i = 0; i < SPHERE_STRIDE * count; i += SPHERE_STRIDE) {
      const dx = x - data[i];
      const dy = y - data[i + 1];
      const along = ex * dx + ey * dy;
      const square = along * along - (dx * dx + dy * dy - radius2);
      if (square <= 0) return false;
      const root = Math.sqrt(square);
      if (root - along < to) to = root - along;
      if (-root - along > from) from = -root - along;
    }
    span[0] = from;
    span[1] = to;
    return to > from;
  }
}

/** Spheres of the shortest leg: the bottom is z + sqrt(l^2 - d^2) within the shadow, and never below an apex. */
export class SphereBottoms extends LimitSet {
  radius2 = 0;
  /** The highest apex [mm]. */
  private floor = Number.NEGATIVE_INFINITY;

  constructor(most: number) {
    super(most, SPHERE_STRIDE);
  }

  override clear(): void {
    super.clear();
    this.floor = Number.NEGATIVE_INFINITY;
  }

  add(x: number, y: number, z: number): void {
    const i = SPHERE_STRIDE * this.count++;
    this.data[i] = x;
    this.data[i + 1] = y;
    this.data[i + 2] = z;
    if (z > this.floor) this.floor = z;
  }

  cut({ count, x, y, bottom }: ColumnBatch): void {
    const { data, radius2, floor } = this;
    for (let column = 0; column < count; column++) {
      if (floor > bottom[column]) bottom[column] = floor;
    }
    const end = this.evenEnd();
    for (let i = 0; i < end; i += 2 * SPHERE_STRIDE) {
      const x0 = data[i];
      const y0 = data[i + 1];
      const z0 = data[i + 2];
      const x1 = data[i + 3];
      const y1 = data[i + 4];
      const z1 = data[i + 5];
      for (let column = 0; column < count; column++) {
        const px = x[column];
        const py = y[column];
        const before = bottom[column];
        let now = before;
        const q0 = radius2 - (px - x0) * (px - x0) - (py - y0) * (py - y0);
        const q1 = radius2 - (px - x1) * (px - x1) - (py - y1) * (py - y1);
        if (q0 > (now - z0) * (now - z0)) now = z0 + Math.sqrt(q0);
        if (q1 > (now - z1) * (now - z1)) now = z1 + Math.sqrt(q1);
        if (now > before) bottom[column] = now;
      }
    }
  }
}
