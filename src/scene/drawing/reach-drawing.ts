import { BufferGeometry, Group, Mesh, Points, type ShaderMaterial } from 'three';
import type { ReachPicture, ReachPoints, ReachSurface } from '../../jobs/reach-picture.ts';
import type { ReachColouring, ReachDrawing as ReachKind } from '../../state/session-store.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { roomFor, roomForIndex, writeFront, writeShares } from './reach-buffers.ts';
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
  private shown: ReachPicture | null = null;

  constructor(frame: FrameUniforms) {
    this.uniforms = newReachUniforms(frame);
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

  update(
    picture: ReachPicture | null,
    kind: ReachKind,
    colouring: ReachColouring,
    stale: boolean,
    contourStep: number,
  ): void {
    if (picture !== this.shown) {
      this.shown = picture;
      if (picture) {
        writePoints(this.cloud.geometry, picture.cloud);
        this.cloud.geometry.setDrawRange(0, picture.cloud.magnifications.length);
        writeShell(this.shell.geometry, picture.shell);
        writeFirmness(this.shell.geometry, picture.shell);
      }
    }
    this.cloud.visible = picture !== null && kind === 'cloud';
    this.shell.visible = picture !== null && kind === 'shell';
    this.uniforms.colourBy.value = COLOUR_BY[colouring];
    this.uniforms.stale.value = stale ? 1 : 0;
    this.uniforms.contourStep.value = contourStep;
  }

  dispose(): void {
    this.uniforms.table.value.dispose();
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
  writeFirmness(geometry, points);
}

function writeFirmness(geometry: BufferGeometry, points: ReachPoints): void {
  const count = points.magnifications.length;
  const shares = roomFor(geometry, 'share', count, 1, bytes);
  shares.normalized = true;
  writeShares(shares, points.magnifications);
  writeFront(roomFor(geometry, 'limit', count, 1, bytes), points.limits);
}

/** Puts the triangles of a shell into a geometry, in the room that it has. */
export function writeShell(geometry: BufferGeometry, shell: ReachSurface): void {
  const count = shell.positions.length / 3;
  writeFront(roomFor(geometry, 'position', count, 3, floats), shell.positions);
  writeFront(roomFor(geometry, 'normal', count, 3, floats), shell.normals);
  writeFront(roomForIndex(geometry, shell.indices.length), shell.indices);
  geometry.setDrawRange(0, shell.indices.length);
}
