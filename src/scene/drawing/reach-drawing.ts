import { BufferGeometry, Group, Mesh, Points, type ShaderMaterial } from 'three';
import type { ReachPicture, ReachPoints, ReachSurface } from '../../jobs/reach-picture.ts';
import type { Direction } from '../../reach/columns/column-cutter.ts';
import {
  isFieldColouring,
  type ReachColouring,
  type ReachDrawing as ReachKind,
} from '../../state/session/session-store.ts';
import { type FieldScale, writeFieldColours } from '../colour/field-scale.ts';
import { mapOf } from '../colour/maps.ts';
import type { PartPaint, ReachPaint } from '../model/reach-paint.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { MapTextures } from './map-textures.ts';
import { markFront, roomFor, roomForIndex, writeFront, writeShares } from './reach-buffers.ts';
import {
  COLOUR_BY,
  cloudMaterial,
  ghostShellMaterial,
  newReachUniforms,
  type ReachUniforms,
  shellMaterial,
} from './reach-material.ts';

/** The reachable volume as a cloud or a shell. Its memory is kept and reused from picture to picture. */
export class ReachDrawing {
  readonly object = new Group();
  private readonly uniforms: ReachUniforms;
  private readonly cloud: Points<BufferGeometry, ShaderMaterial>;
  private readonly shell: Mesh<BufferGeometry, ShaderMaterial>;
  private readonly maps = new MapTextures();
  private shown: ReachPicture | null = null;
  private paint: ReachPaint | null = null;

  constructor(frame: FrameUniforms) {
    this.uniforms = newReachUniforms(frame, this.maps.of(mapOf(null)));
    this.cloud = new Points(new BufferGeometry(), cloudMaterial(this.uniforms));
    this.shell = new Mesh(new BufferGeometry(), shellMaterial(this.uniforms));
    for (const part of [this.cloud, this.shell]) {
      part.frustumCulled = false;
      part.renderOrder = 20;
      // nothing of it can be grabbed
      part.raycast = () => undefined;
      this.object.add(part);
    }
  }

  /**
   * @param paint colours and marks from the field, of this very picture; null where there is none (yet), and a quantity is then
   *   drawn grey
   */
  update(
    picture: ReachPicture | null,
    kind: ReachKind,
    colouring: ReachColouring,
    stale: boolean,
    contourStep: number,
    paint: ReachPaint | null = null,
  ): void {
    if (picture && picture !== this.shown) {
      writePoints(this.cloud.geometry, picture.cloud);
      this.cloud.geometry.setDrawRange(0, picture.cloud.magnifications.length);
      writeShell(this.shell.geometry, picture.shell);
      writeLimits(this.shell.geometry, picture.shell);
    }
    if (picture && (picture !== this.shown || paint !== this.paint)) {
      paintPart(this.cloud.geometry, picture.cloud, paint?.scale ?? null, paint?.cloud ?? NO_PAINT);
      paintPart(this.shell.geometry, picture.shell, paint?.scale ?? null, paint?.shell ?? NO_PAINT);
    }
    this.shown = picture;
    this.paint = paint;
    this.cloud.visible = picture !== null && kind === 'cloud';
    this.shell.visible = picture !== null && kind === 'shell';
    const byLimit = colouring === 'limit';
    this.uniforms.colourBy.value = byLimit ? COLOUR_BY.limit : COLOUR_BY.scale;
    this.uniforms.table.value = this.maps.of(mapOf(paint?.scale ?? null));
    this.uniforms.stale.value = stale || (isFieldColouring(colouring) && !paint?.scale) ? 1 : 0;
    this.uniforms.contourStep.value = contourStep;
  }

  /** The plane that opens the reach, for what else is opened by it. */
  get opening(): ReachUniforms['cutPlane'] {
    return this.uniforms.cutPlane;
  }

  /** Opens the reach on the eye's side of a plane square to an axis; null closes it again. */
  open(cut: { readonly axis: Direction; readonly at: number } | null): void {
    const { cutPlane } = this.uniforms;
    cutPlane.value.set(0, 0, 0, cut ? cut.at : 0);
    if (cut) cutPlane.value.setComponent(cut.axis, 1);
  }

  dispose(): void {
    this.maps.dispose();
    for (const part of [this.cloud, this.shell]) {
      part.geometry.dispose();
      part.material.dispose();
    }
  }
}

/** The shell of the pinned design. */
export class GhostShell {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private shown: ReachSurface | null = null;

  constructor(frame: FrameUniforms) {
    this.object = new Mesh(new BufferGeometry(), ghostShellMaterial(frame));
    this.object.frustumCulled = false;
    this.object.renderOrder = 19;
    this.object.visible = false;
    this.object.raycast = () => undefined;
  }

  update(shell: ReachSurface | null): void {
    this.object.visible = shell !== null;
    if (shell === this.shown) return;
    this.shown = shell;
    if (shell) writeShell(this.object.geometry, shell);
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

const floats = (length: number) => new Float32Array(length);
const bytes = (length: number) => new Uint8Array(length);

function writePoints(geometry: BufferGeometry, points: ReachPoints): void {
  const count = points.magnifications.length;
  writeFront(roomFor(geometry, 'position', count, 3, floats), points.positions);
  writeLimits(geometry, points);
}

function writeLimits(geometry: BufferGeometry, points: ReachPoints): void {
  const count = points.magnifications.length;
  writeFront(roomFor(geometry, 'limit', count, 1, bytes), points.limits);
}

const NO_PAINT: PartPaint = { values: null, missed: null };

/** Colours one part anew: by the values of a quantity, or by its firmness, with marks where floors are missed. */
export function paintPart(
  geometry: BufferGeometry,
  points: ReachPoints,
  scale: FieldScale | null,
  { values, missed }: PartPaint,
): void {
  const count = points.magnifications.length;
  const shares = roomFor(geometry, 'share', count, 1, bytes);
  shares.normalized = true;
  const marks = roomFor(geometry, 'mark', count, 1, bytes);
  if (values && scale) {
    writeFieldColours(values, scale, missed, shares.array, marks.array);
    markFront(shares, count);
    markFront(marks, count);
    return;
  }
  writeShares(shares, points.magnifications);
  if (missed) writeFront(marks, missed);
  else {
    marks.array.fill(0, 0, count);
    markFront(marks, count);
  }
}

/** Puts the triangles of a shell into a geometry, in the room that it has. */
export function writeShell(geometry: BufferGeometry, shell: ReachSurface): void {
  const count = shell.positions.length / 3;
  writeFront(roomFor(geometry, 'position', count, 3, floats), shell.positions);
  writeFront(roomFor(geometry, 'normal', count, 3, floats), shell.normals);
  writeFront(roomForIndex(geometry, shell.indices.length), shell.indices);
  geometry.setDrawRange(0, shell.indices.length);
}
