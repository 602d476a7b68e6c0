import { Group } from 'three';
import { INK } from '../colour/inks.ts';
import { type GridPlan, gridPlan, LINES_PER_HEAVY } from '../shape/floor-grid.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import type { LabelSet } from './label-set.ts';
import { PENS } from './pens.ts';

/** Grid beyond the plates, in radii of the larger one. */
const GRID_RADII = 1.45;

/** The sheet under the platform: fine squares, and a heavier line every five of them with bars that say how long it is. */
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

  /** Writes how long the scale bars are. */
  label(labels: LabelSet): void {
    const { step, reach } = this.plan;
    const heavy = step * LINES_PER_HEAVY;
    labels.label(`${heavy} mm`, 'bare', [heavy / 2 - reach, -reach, this.height], 0, -11, INK.soft);
  }

  dispose(): void {
    this.lines.dispose();
  }

  /**
   * Two bars from the front left corner along both edges, so that one is seen at its length from the front and one from the side; as long as a
   * heavy square is wide, with ticks at their ends. There they are clear of what is written below the picture.
   */
  private drawScale(step: number, reach: number, z: number, pen: Pen): void {
    const heavy = step * LINES_PER_HEAVY;
    const tick = 0.45 * step;
    const end = heavy - reach;
    this.lines.segment(-reach, -reach, z, end, -reach, z, pen);
    this.lines.segment(-reach, -reach, z, -reach, end, z, pen);
    this.lines.segment(end, -reach - tick, z, end, tick - reach, z, pen);
    this.lines.segment(-reach - tick, end, z, tick - reach, end, z, pen);
  }
}
