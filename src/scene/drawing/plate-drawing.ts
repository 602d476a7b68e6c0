import { Group } from 'three';
import type { DesignParts } from '../../document/design-parts.ts';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { at, type Vec3 } from '../../math/vec3.ts';
import { INK } from '../colour/inks.ts';
import { RIM_CORNERS } from '../shape/cone-rim.ts';
import { type HoleLayout, holeLayout } from '../shape/hole-layout.ts';
import { RIM_MARKS, type RimMarks, writeLimitRim } from '../shape/limit-rim.ts';
import { OUTLINE_CORNERS } from '../shape/plate-outline.ts';
import { type PlateShape, plateShape } from '../shape/plate-shape.ts';
import { unitCylinder } from '../shape/unit-solids.ts';
import { ConeFills } from './cone-fills.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { HoleMarks } from './hole-marks.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import { PENS, PLATE_WIDTH } from './pens.ts';
import { PlateSolid } from './plate-solid.ts';
import { SolidSet } from './solid-set.ts';
import { drawTriad } from './triad.ts';

/** Slant of a drawn joint cone as a share of the shortest leg. */
const CONE_SLANT = 0.42;

/** Diameter of the post between plate and joint, in rod diameters. */
const POST_RODS = 0.9;

/** Length of the axes of a plate's frame as a share of its radius. */
export const TRIAD_SHARE = 0.4;

/** How one cone is marked. */
interface ConeMarks {
  readonly showCones: boolean;
  readonly showFrames: boolean;
  readonly highlightedLeg: number | null;
}

/** One plate with its holes, posts, joint cones and frame, all in the plate's own frame: place {@link object} to pose it. */
export class PlateDrawing {
  readonly object = new Group();
  private readonly plate: PlateName;
  private readonly solid: PlateSolid;
  private readonly holes: HoleMarks;
  private readonly posts: SolidSet;
  private readonly cones: ConeFills;
  private readonly lines: InkLines;
  private readonly rims = new Float64Array(3 * RIM_CORNERS * LEG_COUNT);
  private readonly edge = new Float64Array(3 * OUTLINE_CORNERS);
  private drawn: DesignParts | null = null;
  shape: PlateShape | null = null;

  constructor(uniforms: FrameUniforms, plate: PlateName) {
    this.plate = plate;
    this.solid = new PlateSolid(uniforms);
    this.holes = new HoleMarks(uniforms, 512);
    this.posts = new SolidSet(uniforms, unitCylinder(12), LEG_COUNT);
    this.cones = new ConeFills(uniforms);
    this.lines = new InkLines(uniforms, 1024);
    this.object.add(this.solid.object, this.holes.object, this.posts.object, this.cones.object, this.lines.object);
  }

  update(mechanism: Mechanism, parts: DesignParts, legs: readonly LegState[], marks: ConeMarks): void {
    if (this.drawn !== parts) {
      this.drawn = parts;
      this.shape = plateShape(mechanism, this.plate, parts.plates[this.plate]);
      this.solid.update(this.shape, { ink: INK.line, width: PLATE_WIDTH[this.plate], tint: 0 });
      this.drawHoles(mechanism, this.shape);
      this.drawPosts(mechanism, this.shape);
    }
    this.lines.begin();
    if (this.shape) this.drawEdges(this.shape);
    this.cones.object.visible = marks.showCones;
    this.drawLimits(mechanism, parts, legs, marks);
    if (marks.showFrames && this.shape) drawTriad(this.lines, [0, 0, 0], TRIAD_SHARE * this.shape.radius, PENS.axis);
    this.lines.end();
  }

  dispose(): void {
    for (const part of [this.solid, this.holes, this.posts, this.cones, this.lines]) part.dispose();
  }

  private drawHoles(mechanism: Mechanism, shape: PlateShape): void {
    this.holes.begin();
    const layout = mechanism.spec[this.plate];
    if (layout.kind === 'ring') {
      const { holes, radius }: HoleLayout = holeLayout(layout.ring, this.plate);
      for (const z of [shape.innerFace, shape.outerFace]) {
        for (const { x, y, leg } of holes) {
          if (leg === null) this.holes.hole(x, y, z, radius, INK.soft, 0.62, 0.8);
          else this.holes.hole(x, y, z, 1.9 * radius, INK.line, 0.7, 1);
          if (leg !== null) this.holes.hole(x, y, z, radius, INK.line, 0, 1);
        }
      }
    }
    this.holes.end();
  }

  private drawPosts(mechanism: Mechanism, shape: PlateShape): void {
    this.posts.begin();
    const joints = mechanism.centres[this.plate];
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const joint = at(joints, leg);
      this.posts.between(
        [joint[0], joint[1], shape.innerFace],
        joint,
        POST_RODS * mechanism.legs.rodDiameter,
        PENS.post,
      );
    }
    this.posts.end();
  }

  private drawEdges({ outline, innerFace, outerFace, opening }: PlateShape): void {
    const pen: Pen = { ink: INK.line, width: 0.75 * PLATE_WIDTH[this.plate], opacity: 1 };
    for (const z of [innerFace, outerFace]) {
      for (let i = 0; i < OUTLINE_CORNERS; i++) {
        this.edge[3 * i] = outline.corners[2 * i];
        this.edge[3 * i + 1] = outline.corners[2 * i + 1];
        this.edge[3 * i + 2] = z;
      }
      this.lines.loop(this.edge, 0, OUTLINE_CORNERS, pen);
      if (opening === 0) continue;
      for (let i = 0; i < OUTLINE_CORNERS; i++) {
        this.edge[3 * i] = opening * outline.normals[2 * i];
        this.edge[3 * i + 1] = opening * outline.normals[2 * i + 1];
      }
      this.lines.loop(this.edge, 0, OUTLINE_CORNERS, pen);
    }
  }

  private drawLimits(mechanism: Mechanism, parts: DesignParts, legs: readonly LegState[], marks: ConeMarks): void {
    const joints = mechanism.centres[this.plate];
    const axes = this.plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P;
    const slant = CONE_SLANT * mechanism.legs.min;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const apex = at(joints, leg);
      const shape = parts.shapes[this.plate][leg];
      const broken = legs[leg].violations.includes(this.plate === 'base' ? 'baseJoint' : 'platformJoint');
      const highlighted = marks.highlightedLeg === leg + 1;
      writeLimitRim(shape, at(axes, leg), apex, slant, this.rims, 3 * RIM_CORNERS * leg);
      this.cones.set(leg, apex, this.rims, broken ? INK.warn : INK.soft, broken ? 0.22 : 0.09);
      // a broken limit is drawn even when the others are not wanted
      if (!marks.showCones && !broken) continue;
      const pen = broken ? PENS.coneBroken : highlighted ? PENS.coneHighlighted : PENS.cone;
      this.drawLimitLines(leg, apex, RIM_MARKS[shape.kind], pen, broken);
    }
    this.cones.end();
  }

  private drawLimitLines(leg: number, apex: Vec3, { lines, spokes }: RimMarks, pen: Pen, broken: boolean): void {
    const first = 3 * RIM_CORNERS * leg;
    for (const line of lines) {
      const start = first + 3 * line.first;
      if (line.closed) this.lines.loop(this.rims, start, line.count, pen);
      else this.lines.path(this.rims, start, line.count, pen);
    }
    const spokePen = broken ? { ...pen, width: 1.2 } : PENS.coneSpoke;
    for (const i of spokes) {
      const k = first + 3 * i;
      this.lines.segment(apex[0], apex[1], apex[2], this.rims[k], this.rims[k + 1], this.rims[k + 2], spokePen);
    }
  }
}
