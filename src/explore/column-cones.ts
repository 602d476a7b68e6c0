import type { ColumnBatch } from './column-batch.ts';
import { LimitSet } from './column-limits.ts';

/** Numbers kept of a cone: apex x y z; (k/m) times the axis in plan; az / k; k^2 / m. */
const CONE_STRIDE = 7;

/**
 * Cones about an apex, each with an axis a and the cosine k of its opening. With v = (d, w) from the apex and s the part of d along
 * the axis, the cone holds s + az w >= k sqrt(d^2 + w^2). With m = az^2 - k^2 its surface lies at the heights
 * w = (-s az +- k sqrt(s^2 + m d^2)) / m = -S az/k +- sqrt(S^2 + (k^2/m) d^2), where S = (k/m) s.
 */
abstract class ConeSet extends LimitSet {
  constructor(most: number) {
    super(most, CONE_STRIDE);
  }

  add(x: number, y: number, z: number, ax: number, ay: number, az: number, k: number): void {
    const i = CONE_STRIDE * this.count++;
    const { data } = this;
    const m = az * az - k * k;
    data[i] = x;
    data[i + 1] = y;
    data[i + 2] = z;
    data[i + 3] = (ax * k) / m;
    data[i + 4] = (ay * k) / m;
    data[i + 5] = az / k;
    data[i + 6] = (k * k) / m;
  }
}

/** Cones that hold the vertical through their apex (m > 0): a column enters them once, at the upper root. */
export class UprightCones extends ConeSet {
  cut({ count, x, y, bottom }: ColumnBatch): void {
    const { data } = this;
    const end = this.evenEnd();
    for (let i = 0; i < end; i += 2 * CONE_STRIDE) {
      const x0 = data[i];
      const y0 = data[i + 1];
      const z0 = data[i + 2];
      const kx0 = data[i + 3];
      const ky0 = data[i + 4];
      const steep0 = data[i + 5];
      const wide0 = data[i + 6];
      const x1 = data[i + 7];
      const y1 = data[i + 8];
      const z1 = data[i + 9];
      const kx1 = data[i + 10];
      const ky1 = data[i + 11];
      const steep1 = data[i + 12];
      const wide1 = data[i + 13];
      for (let column = 0; column < count; column++) {
        const px = x[column];
        const py = y[column];
        const before = bottom[column];
        let now = before;
        const dx0 = px - x0;
        const dy0 = py - y0;
        const S0 = kx0 * dx0 + ky0 * dy0;
        const q0 = S0 * S0 + wide0 * (dx0 * dx0 + dy0 * dy0);
        const base0 = z0 - S0 * steep0;
        const dx1 = px - x1;
        const dy1 = py - y1;
        const S1 = kx1 * dx1 + ky1 * dy1;
        const q1 = S1 * S1 + wide1 * (dx1 * dx1 + dy1 * dy1);
        const base1 = z1 - S1 * steep1;
        const t0 = now - base0;
        if (t0 < 0 || q0 > t0 * t0) now = base0 + Math.sqrt(q0);
        const t1 = now - base1;
        if (t1 < 0 || q1 > t1 * t1) now = base1 + Math.sqrt(q1);
        if (now > before) bottom[column] = now;
      }
    }
  }
}

/**
 * Cones that leave the vertical through their apex out (m < 0), since their axis leans further than they open: a column passes
 * between the two roots, on the side to which the axis leans, or misses the cone.
 */
export class LeaningCones extends ConeSet {
  cut({ count, x, y, bottom, top }: ColumnBatch): void {
    const { data } = this;
    for (let i = 0; i < CONE_STRIDE * this.count; i += CONE_STRIDE) {
      const ax = data[i];
      const ay = data[i + 1];
      const az = data[i + 2];
      const kx = data[i + 3];
      const ky = data[i + 4];
      const steep = data[i + 5];
      const wide = data[i + 6];
      for (let column = 0; column < count; column++) {
        const dx = x[column] - ax;
        const dy = y[column] - ay;
        const S = kx * dx + ky * dy;
        const q = S * S + wide * (dx * dx + dy * dy);
        const base = az - S * steep;
        // as for m > 0, a root is drawn only where it moves an end; (k/m) turns the sign of s
        const passes = S < 0 && q > 0;
        const up = passes ? top[column] - base : 0;
        if (up > 0 && q < up * up) top[column] = base + Math.sqrt(q);
        const down = base - bottom[column];
        if (down > 0 && q < down * down) bottom[column] = base - Math.sqrt(Math.max(0, q));
        if (!passes && az < top[column]) top[column] = az;
      }
    }
  }
}
