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

  /** Whether limit n leaves every column of the segments that span a batch to limit m of the same leg; by bounds, never wrongly. */
  protected abstract yields(n: number, m: number, outline: ColumnBatch): boolean;

  /** The sign of a height that is worth more: -1 where the lowest apex binds most, 1 where the highest does. */
  protected abstract readonly upward: 1 | -1;

  /**
   * The same leg at several orientations has apexes nearly above each other, and most often one of them binds
   * everywhere. Drops the limits that yield to their leg's foremost one.
   * @param legs limits of each orientation, which stand behind each other in the same order
   * @param outline ends of all segments in which columns will be asked for
   */
  dropYielding(legs: number, outline: ColumnBatch): void {
    const { data, stride, count, upward } = this;
    for (let leg = 0; leg < legs; leg++) {
      let foremost = leg;
      for (let n = leg + legs; n < count; n += legs) {
        if (upward * (data[n * stride + 2] - data[foremost * stride + 2]) > 0) foremost = n;
      }
      for (let n = leg; n < count; n += legs) {
        if (n !== foremost && this.yields(n, foremost, outline)) data[n * stride] = Number.NaN;
      }
    }
    let kept = 0;
    for (let n = 0; n < count; n++) {
      if (Number.isNaN(data[n * stride])) continue;
      for (let k = 0; k < stride; k++) data[kept * stride + k] = data[n * stride + k];
      kept++;
    }
    this.count = kept;
  }

  /** Largest square of the distance in plan from an apex to a column of the outline [mm^2]. */
  protected farthest2(n: number, { count, x, y }: ColumnBatch): number {
    const ax = this.data[n * this.stride];
    const ay = this.data[n * this.stride + 1];
    let largest = 0;
    for (let column = 0; column < count; column++) {
      const d2 = (x[column] - ax) * (x[column] - ax) + (y[column] - ay) * (y[column] - ay);
      if (d2 > largest) largest = d2;
    }
    return largest;
  }

  /** Distance in plan between two apexes [mm]. */
  protected apart(n: number, m: number): number {
    const { data, stride } = this;
    const dx = data[n * stride] - data[m * stride];
    const dy = data[n * stride + 1] - data[m * stride + 1];
    return Math.sqrt(dx * dx + dy * dy);
  }

  /** How much higher the apex of limit n is than that of m [mm]. */
  protected higher(n: number, m: number): number {
    return this.data[n * this.stride + 2] - this.data[m * this.stride + 2];
  }

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

  protected readonly upward = -1;

  /**
   * With h = sqrt(L^2 - d^2) and apexes `apart` by e in plan, h_m^2 <= h_n^2 + 2 d e - e^2, so z_m + h_m <= z_n + h_n for an apex m lower
   * by g if 2 h g + g^2 >= 2 d e - e^2; hardest at the farthest column.
   */
  protected yields(n: number, m: number, outline: ColumnBatch): boolean {
    const d2 = this.farthest2(n, outline);
    if (d2 >= this.radius2) return false;
    const h = Math.sqrt(this.radius2 - d2);
    const g = this.higher(n, m);
    const e = this.apart(n, m);
    return 2 * h * g + g * g >= 2 * Math.sqrt(d2) * e - e * e;
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

  protected readonly upward = 1;

  /**
   * As for tops, z_n + h_n <= z_m + h_m for an apex m higher by g if 2 h g - g^2 >= 2 d e + e^2. Where h is less than g, sphere n lies
   * below apex m anyway, so the hardest column has h = g, or is the farthest one if h is more there.
   */
  protected yields(n: number, m: number, outline: ColumnBatch): boolean {
    const g = this.higher(m, n);
    const e = this.apart(n, m);
    const h = Math.sqrt(Math.max(g * g, this.radius2 - this.farthest2(n, outline)));
    const d2 = this.radius2 - h * h;
    return d2 <= 0 || 2 * h * g - g * g >= 2 * Math.sqrt(d2) * e + e * e;
  }
}
