import { Group } from 'three';
import type { ReachPicture, ReachSurface } from '../../jobs/reach-picture.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { type Pose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate } from '../../math/rotation.ts';
import { add, length, scale, subtract, unit, type Vec3 } from '../../math/vec3.ts';
import type { NearestBodies } from '../../state/design/nearest-bodies.ts';
import type { ReachColouring, ReachDrawing as ReachKind } from '../../state/session/session-store.ts';
import { INK } from '../colour/inks.ts';
import type { ComparedShell } from '../model/compared-shells.ts';
import type { ReachPaint } from '../model/reach-paint.ts';
import type { SceneView } from '../model/scene-view.ts';
import { squareAxes } from '../shape/cone-rim.ts';
import { BodiesDrawing } from './bodies-drawing.ts';
import { ComparedShells } from './compared-shells.ts';
import { FloorDrawing } from './floor-drawing.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { GhostDrawing } from './ghost-drawing.ts';
import { InkLines } from './ink-lines.ts';
import { JointPinsDrawing } from './joint-pins-drawing.ts';
import { LabelAtlas } from './label-atlas.ts';
import { LabelSet } from './label-set.ts';
import { LegsDrawing } from './legs-drawing.ts';
import { PayloadMeshDrawing } from './payload-mesh-drawing.ts';
import { PENS } from './pens.ts';
import { PlateDrawing, TRIAD_SHARE } from './plate-drawing.ts';
import { GhostShell, ReachDrawing } from './reach-drawing.ts';
import { AXIS_LETTERS, axisPoint } from './triad.ts';

/** How the things of a view are to be drawn. */
export interface StageStyle {
  readonly showCones: boolean;
  readonly showFrames: boolean;
  readonly highlightedLeg: number | null;
  readonly reach: {
    readonly picture: ReachPicture | null;
    readonly kind: ReachKind;
    readonly colouring: ReachColouring;
    readonly stale: boolean;
    /** Colours and marks from its field; null where there are none. */
    readonly paint: ReachPaint | null;
  };
  /** Triangles of an imported payload from the middle of its bound, and that middle in the platform's frame. */
  readonly payloadMesh: { readonly triangles: Float32Array; readonly middle: Vec3 } | null;
  readonly ghostShell: ReachSurface | null;
  readonly comparedShells: readonly ComparedShell[];
}

/** Arms of the tool point's cross as a share of the layout's size. */
const TOOL_CROSS = 0.1;

/** Where along a leg its number stands, odd and even: two legs that cover each other in a view are neighbours. */
const NUMBER_PLACES = [0.41, 0.53];

/** The whole drawing: made once, redrawn in place for every change. */
export class Stage {
  readonly root = new Group();
  readonly legs: LegsDrawing;
  readonly floor: FloorDrawing;
  private readonly base: PlateDrawing;
  private readonly platform: PlateDrawing;
  readonly reach: ReachDrawing;
  private readonly ghost: GhostDrawing;
  private readonly ghostShell: GhostShell;
  private readonly compared: ComparedShells;
  private readonly pins: JointPinsDrawing;
  private readonly baseBodies: BodiesDrawing;
  private readonly platformBodies: BodiesDrawing;
  private readonly payloadMesh: PayloadMeshDrawing;
  private readonly tool: InkLines;
  private readonly atlas = new LabelAtlas();
  readonly labels: LabelSet;

  constructor(uniforms: FrameUniforms) {
    this.floor = new FloorDrawing(uniforms);
    this.base = new PlateDrawing(uniforms, 'base');
    this.platform = new PlateDrawing(uniforms, 'platform');
    this.legs = new LegsDrawing(uniforms);
    this.reach = new ReachDrawing(uniforms);
    this.ghost = new GhostDrawing(uniforms);
    this.ghostShell = new GhostShell(uniforms);
    this.compared = new ComparedShells(uniforms);
    this.pins = new JointPinsDrawing(uniforms);
    this.baseBodies = new BodiesDrawing(uniforms, 'base');
    this.platformBodies = new BodiesDrawing(uniforms, 'platform');
    this.payloadMesh = new PayloadMeshDrawing(uniforms);
    this.platformBodies.object.add(this.payloadMesh.object);
    this.tool = new InkLines(uniforms, 64);
    this.labels = new LabelSet(uniforms, this.atlas, 64);
    for (const part of [this.platform, this.platformBodies]) part.object.matrixAutoUpdate = false;
    for (const part of this.parts) this.root.add(part.object);
  }

  draw(view: SceneView, style: StageStyle): void {
    const { mechanism, parts, drawnPose, legs, drawnLegs } = view;
    const origin = platformOrigin(drawnPose, mechanism.p_PoTo_P);
    this.base.update(mechanism, parts, legs, style);
    this.platform.update(mechanism, parts, legs, style);
    for (const part of [this.platform, this.platformBodies]) placeGroup(part.object, drawnPose, origin);
    for (const bodies of [this.baseBodies, this.platformBodies]) bodies.update(parts.clearance);
    this.payloadMesh.update(style.payloadMesh);
    this.pins.update(mechanism, parts, drawnPose, drawnLegs, legs);
    this.legs.update(mechanism, parts, drawnLegs, legs, style.highlightedLeg);
    const { base, platform } = this;
    if (base.shape && platform.shape) {
      this.floor.update(Math.max(base.shape.radius, platform.shape.radius), base.shape.outerFace);
    }
    const { picture, kind, colouring, stale, paint } = style.reach;
    this.reach.update(picture, kind, colouring, stale, this.floor.plan.step, paint);
    this.ghostShell.update(view.ghost && kind !== 'none' ? style.ghostShell : null);
    this.compared.update(kind === 'none' ? [] : style.comparedShells);
    this.drawGhosts(view);
    this.drawMarks(view);
    this.drawLabels(view, style);
  }

  /** The page's font has arrived. */
  rewriteLabels(): void {
    this.atlas.rewrite();
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
    this.payloadMesh.dispose();
    this.atlas.dispose();
  }

  private get parts() {
    const { floor, base, platform, legs, pins, baseBodies, platformBodies } = this;
    const { reach, ghost, ghostShell, compared, labels, tool } = this;
    return [
      ...[floor, base, platform, legs, pins, baseBodies, platformBodies],
      ...[reach, ghost, ghostShell, compared, tool, labels],
    ];
  }

  private drawGhosts({ ghost, loose, mechanism, pose }: SceneView): void {
    this.ghost.begin();
    if (ghost) this.ghost.draw(ghost.mechanism, ghost.pose, PENS.ghost, true);
    for (const end of loose?.ends ?? []) this.ghost.draw(mechanism, end, PENS.loose, false);
    const axis = loose?.motion.axis;
    // an axis far outside says no more than "nearly a straight motion"
    if (axis && length(subtract(axis.point, pose.p_BoTo_B)) < 4 * mechanism.size) {
      const half = scale(axis.direction, 1.3 * mechanism.size);
      this.ghost.axis(subtract(axis.point, half), add(axis.point, half), 0.06 * mechanism.size, PENS.looseAxis);
    }
    this.ghost.end();
  }

  /** A cross of the platform's axes at the tool point, and the line between the two bodies that are nearest to each other. */
  private drawMarks({ mechanism, drawnPose, nearest }: SceneView): void {
    const arm = TOOL_CROSS * mechanism.size;
    const tool = drawnPose.p_BoTo_B;
    this.tool.begin();
    for (let k = 0; k < 3; k++) {
      const step = rotate(drawnPose.R_BP, axisPoint([0, 0, 0], k, arm));
      this.tool.line(subtract(tool, step), add(tool, step), PENS.tool);
    }
    if (nearest && nearest.state !== 'meet') this.drawNearest(nearest, 0.5 * arm);
    this.tool.end();
  }

  /** A dimension line: its two ends crossed by short strokes. */
  private drawNearest({ from, to, state }: NearestBodies, stroke: number): void {
    const pen = state === 'near' ? PENS.tooNear : PENS.nearest;
    this.tool.line(from, to, pen);
    for (const across of squareAxes(unit(subtract(to, from)))) {
      const half = scale(across, stroke / 2);
      for (const end of [from, to]) this.tool.line(subtract(end, half), add(end, half), pen);
    }
  }

  private drawLabels({ mechanism, drawnPose, legs, drawnLegs }: SceneView, style: StageStyle): void {
    const { labels, base, platform } = this;
    labels.begin();
    this.floor.label(labels);
    const origin = platformOrigin(drawnPose, mechanism.p_PoTo_P);
    const placed = (point: Vec3): Vec3 => add(origin, rotate(drawnPose.R_BP, point));
    if (base.shape && platform.shape) {
      const edge = (radius: number): Vec3 => [-0.5 * radius, -0.866 * radius, 0];
      labels.label('A', 'box', add(edge(base.shape.radius), [0, 0, base.shape.outerFace]), 0, -16, INK.line);
      const b = add(edge(platform.shape.radius), [0, 0, platform.shape.outerFace]);
      labels.label('B', 'box', placed(b), 0, 16, INK.line);
      if (style.showFrames) {
        AXIS_LETTERS.forEach((letter, k) => {
          const tip = (radius: number) => axisPoint([0, 0, 0], k, (TRIAD_SHARE + 0.05) * radius);
          labels.label(letter, 'bare', tip(base.shape?.radius ?? 0), 0, 0, INK.line);
          labels.label(letter, 'bare', placed(tip(platform.shape?.radius ?? 0)), 0, 0, INK.line);
        });
      }
    }
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const { baseJoint_B, u_B, length: size } = drawnLegs[leg];
      const ink = legs[leg].violations.length > 0 ? INK.warn : style.highlightedLeg === leg + 1 ? INK.accent : INK.line;
      labels.label(String(leg + 1), 'ring', add(baseJoint_B, scale(u_B, NUMBER_PLACES[leg % 2] * size)), 0, 0, ink);
    }
    this.baseBodies.label(labels, (point) => point);
    this.platformBodies.label(labels, placed);
    this.compared.label(labels);
    labels.end();
  }
}

function placeGroup(group: Group, { R_BP: R }: Pose, origin: Vec3): void {
  // biome-ignore format: a matrix
  group.matrix.set(
    R[0], R[1], R[2], origin[0],
    R[3], R[4], R[5], origin[1],
    R[6], R[7], R[8], origin[2],
    0, 0, 0, 1,
  );
  group.matrixWorldNeedsUpdate = true;
}
