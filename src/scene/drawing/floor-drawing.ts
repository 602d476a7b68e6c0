import { Group } from 'three';
import { INK } from '../colour/inks.ts';
import { type GridPlan, gridPlan, LINES_PER_HEAVY } from '../shape/floor-grid.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import type { LabelSet } from './label-set.ts';
import { PENS } from './pens.ts';

/** Place of the scale bar along the front edge as a share of half of it: left of the middle, clear of what is written below the picture. */
const BAR_PLACE = -0.3;

/** Grid beyond the plates, in radii of the larger one. */
const GRID_RADII = 1.45;

/** The sheet under the platform: fine squares, and a heavier line every five of them with a bar that says how long it is. */
export class FloorDrawing {
  readonly object = new Group();
  private readonly lines: InkLines;
  private height = Number.NaN;
  private radius = Number.NaN;
  plan: GridPlan = { step: 10, count: 5, reach: 50 };

  constructor(uniforms: FrameUniforms) {
    this.lines = new InkLines(uniforms, 256);
    this.lines.object.renderOrder = -10;
    this.object.add(this.lines.object);
  }

  /** @param plateRadius of the larger plate, and `height` of the base plate's underside [mm] */
  update(plateRadius: number, height: number): void {
    if (plateRadius === this.radius && height === this.height) return;
    this.radius = plateRadius;
    this.height = height;
    this.plan = gridPlan(GRID_RADII * plateRadius);
    const { step, count, reach } = this.plan;
    this.lines.begin();
    for (let i = -count; i <= count; i++) {
      const pen = i % LINES_PER_HEAVY === 0 ? PENS.gridHeavy : PENS.gridFine;
      this.lines.segment(i * step, -reach, height, i * step, reach, height, pen);
      this.lines.segment(-reach, i * step, height, reach, i * step, height, pen);
    }
    this.drawScale(step, reach, height, PENS.scale);
    this.lines.end();
  }

  /** Writes how long the scale bar is. */
  label(labels: LabelSet): void {
    const { step, reach } = this.plan;
    const heavy = step * LINES_PER_HEAVY;
    labels.label(`${heavy} mm`, 'bare', [BAR_PLACE * reach, -reach, this.height], 0, -11, INK.soft);
  }

  dispose(): void {
    this.lines.dispose();
  }

  /** A bar at the front edge, as long as a heavy square is wide, with ticks at its ends. */
  private drawScale(step: number, reach: number, z: number, pen: Pen): void {
    const heavy = step * LINES_PER_HEAVY;
    const y = -reach;
    const middle = BAR_PLACE * reach;
    const ends = [middle - heavy / 2, middle + heavy / 2] as const;
    this.lines.segment(ends[0], y, z, ends[1], y, z, pen);
    for (const x of ends) this.lines.segment(x, y - 0.45 * step, z, x, y + 0.45 * step, z, pen);
  }
}
