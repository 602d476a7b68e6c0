import { addColumn, type ColumnBatch, columnBatch } from './column-batch.ts';
import type { ColumnCutter } from './standing-columns.ts';

/** Interpolations toward an end of the reach along a ray: with three a lopsided bracket can still be far off, five settle. */
const STEPS = 5;

/**
 * A column this low, as a share of the longest leg, is as good as the reach's end: what lies beyond it has the area of a
 * triangle of that height, some ten thousandth of a compact reach's section. Five times finer changes no error by a tenth of itself.
 */
const SETTLED = 3e-3;

/**
 * Beyond an end the gap can fall a hundred times as steeply as within, where a cone's wall is nearly upright; then false position
 * creeps. Gaps are compared as g / (|g| + this share of the longest leg), which keeps their sign and order.
 */
const SOFTENED = 0.1;

const SETTLED_SOFT = SETTLED / (SETTLED + SOFTENED);

/**
 * Where gaps change sign along rays: brackets narrowed all together by the Illinois variant of false position, one batch of
 * columns a step.
 */
export class Crossings {
  count = 0;
  private softening = 0;
  /** Place of the ray in its table, and the radius of the crossing once settled [mm]. */
  readonly ray: Int32Array;
  readonly radius: Float64Array;
  /** Gaps at both ends, softened. */
  private readonly gap: Float64Array;
  private readonly otherRadius: Float64Array;
  private readonly otherGap: Float64Array;
  /** Crossings still being narrowed, the radius at which each is tried [mm], and the columns there. */
  private readonly open: Int32Array;
  private readonly tried: Float64Array;
  private readonly batch: ColumnBatch;

  constructor(most: number) {
    this.ray = new Int32Array(most);
    this.radius = new Float64Array(most);
    this.gap = new Float64Array(most);
    this.otherRadius = new Float64Array(most);
    this.otherGap = new Float64Array(most);
    this.open = new Int32Array(most);
    this.tried = new Float64Array(most);
    this.batch = columnBatch(most);
  }

  /** Forgets all brackets. */
  start(longest: number): void {
    this.count = 0;
    this.softening = SOFTENED * longest;
  }

  /** Adds a bracket: two radii [mm] whose gaps [mm] differ in sign. */
  add(ray: number, radius0: number, gap0: number, radius1: number, gap1: number): void {
    const n = this.count++;
    this.ray[n] = ray;
    this.otherRadius[n] = radius0;
    this.otherGap[n] = this.soften(gap0);
    this.radius[n] = radius1;
    this.gap[n] = this.soften(gap1);
  }

  private soften(gap: number): number {
    return gap / (Math.abs(gap) + this.softening);
  }

  /** Narrows every bracket; rays start at (centreX, centreY), their unit vectors stand first in each row of `rays`. */
  settle(columns: ColumnCutter, rays: Float64Array, centreX: number, centreY: number): void {
    const { batch, open, ray, tried } = this;
    let left = this.count;
    for (let n = 0; n < left; n++) open[n] = n;
    for (let step = 0; step < STEPS && left > 0; step++) {
      batch.count = 0;
      for (let n = 0; n < left; n++) {
        const crossing = open[n];
        const i = ray[crossing];
        const r = this.interpolated(crossing);
        tried[n] = r;
        addColumn(batch, centreX + rays[i] * r, centreY + rays[i + 1] * r, 0);
      }
      columns.cut(batch);
      left = this.narrow(left);
    }
  }

  private interpolated(n: number): number {
    const { radius, gap, otherRadius, otherGap } = this;
    return (otherRadius[n] * gap[n] - radius[n] * otherGap[n]) / (gap[n] - otherGap[n]);
  }

  /** Takes the batch's columns as new ends; keeps those open whose gap is still large. @returns how many are */
  private narrow(count: number): number {
    const { batch, open, tried, radius, gap, otherRadius, otherGap } = this;
    let left = 0;
    for (let n = 0; n < count; n++) {
      const crossing = open[n];
      const found = this.soften(batch.top[n] - batch.bottom[n]);
      if (found > 0 === gap[crossing] > 0) otherGap[crossing] /= 2;
      else {
        otherRadius[crossing] = radius[crossing];
        otherGap[crossing] = gap[crossing];
      }
      radius[crossing] = tried[n];
      gap[crossing] = found;
      if (Math.abs(found) >= SETTLED_SOFT) open[left++] = crossing;
    }
    return left;
  }
}
