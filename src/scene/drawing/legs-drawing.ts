import { Group } from 'three';
import type { DesignParts } from '../../document/design-parts.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';
import { RIM_CORNERS, writeConeRim } from '../shape/cone-rim.ts';
import { splitAtBarrel } from '../shape/leg-split.ts';
import { ballDiameter } from '../shape/plate-shape.ts';
import { unitBall, unitCylinder } from '../shape/unit-solids.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import { PENS } from './pens.ts';
import { SolidSet } from './solid-set.ts';

/** Barrel and rod of a leg are neighbouring copies, so that a hit tells the leg. */
const PARTS_PER_LEG = 2;

/** Six legs with their balls, at true lengths and diameters, in base axes; barrels round-ended, as clearances take them. */
export class LegsDrawing {
  readonly object = new Group();
  private readonly cylinders: SolidSet;
  private readonly balls: SolidSet;
  private readonly caps: SolidSet;
  private readonly lines: InkLines;
  private readonly rim = new Float64Array(3 * RIM_CORNERS);

  constructor(uniforms: FrameUniforms) {
    this.cylinders = new SolidSet(uniforms, unitCylinder(24), PARTS_PER_LEG * LEG_COUNT);
    this.balls = new SolidSet(uniforms, unitBall(16), 2 * LEG_COUNT);
    this.caps = new SolidSet(uniforms, unitBall(24), 2 * LEG_COUNT);
    this.lines = new InkLines(uniforms, 1024);
    for (const part of this.parts) this.object.add(part.object);
  }

  /** What a pointer can hit; copy i belongs to leg {@link legOfCopy}(i). */
  get target() {
    return this.cylinders.fill;
  }

  /**
   * @param drawn the legs as they are drawn
   * @param judged the legs whose broken limits are marked; the same, unless the loosest motion is shown
   */
  update(
    mechanism: Mechanism,
    { clearance }: DesignParts,
    drawn: readonly LegState[],
    judged: readonly LegState[],
    highlightedLeg: number | null,
  ): void {
    const { legs } = mechanism;
    for (const part of this.parts) part.begin();
    const ball = ballDiameter(legs);
    drawn.forEach((state, index) => {
      const broken = judged[index].violations;
      const tooLong = broken.includes('legTooLong');
      const lengthBroken = tooLong || broken.includes('legTooShort');
      const highlighted = highlightedLeg === state.leg;
      const pen = lengthBroken ? PENS.legBroken : highlighted ? PENS.legHighlighted : PENS.leg;
      const { barrelEnd, rodStart } = splitAtBarrel(legs, clearance.barrelLength, state.length);
      const along = (distance: number): Vec3 => add(state.baseJoint_B, scale(state.u_B, distance));
      this.cylinders.between(state.baseJoint_B, along(barrelEnd), legs.barrelDiameter, pen);
      this.cylinders.between(along(rodStart), state.platformJoint_B, legs.rodDiameter, pen);
      for (const end of [0, barrelEnd]) this.caps.around(along(end), legs.barrelDiameter, pen);
      const edge: Pen = { ink: pen.ink, width: 1, opacity: 1 };
      this.drawRim(state, barrelEnd, legs.barrelDiameter, edge);
      this.drawRim(state, 0.08 * barrelEnd, legs.barrelDiameter, edge);
      if (rodStart > barrelEnd) {
        this.lines.dashes(along(barrelEnd), along(rodStart), 2.5, PENS.missing);
        this.drawRim(state, rodStart, legs.rodDiameter, edge);
      }
      this.balls.around(state.baseJoint_B, ball, broken.includes('baseJoint') ? PENS.jointBroken : PENS.joint);
      this.balls.around(state.platformJoint_B, ball, broken.includes('platformJoint') ? PENS.jointBroken : PENS.joint);
    });
    for (const part of this.parts) part.end();
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
  }

  private get parts() {
    return [this.cylinders, this.balls, this.caps, this.lines] as const;
  }

  private drawRim(state: LegState, distance: number, diameter: number, pen: Pen): void {
    const centre = add(state.baseJoint_B, scale(state.u_B, distance));
    writeConeRim(centre, state.u_B, Math.PI / 2, diameter / 2, this.rim, 0);
    this.lines.loop(this.rim, 0, RIM_CORNERS, pen);
  }
}

/** 1 to 6, from the number of the copy that was hit. */
export const legOfCopy = (copy: number): number => Math.floor(copy / PARTS_PER_LEG) + 1;
