import { BufferGeometry, Group, Mesh, type ShaderMaterial } from 'three';
import { COMPARED_COLUMNS } from '../../jobs/compare-service.ts';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { INK } from '../colour/inks.ts';
import type { ComparedShell } from '../model/compared-shells.ts';
import { type ComparedUniforms, comparedMaterial } from './compared-material.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import type { LabelSet } from './label-set.ts';
import { writeShell } from './reach-drawing.ts';

/** Directions in which the letters stand at the rims of their reaches, so that they keep apart [azimuth, rad]. */
const LETTER_AZIMUTHS: readonly number[] = [2.2, 0.4, -0.9, -2.5];

/** How far upward those directions point. */
const LETTER_RISE = 0.35;

/** Lines round a shell from its lowest to its highest point. */
const LINES = 5;

/** The reaches of compared designs as lines round them, each broken in its own way and with its letter. */
export class ComparedShells {
  readonly object = new Group();
  private readonly shells: readonly ComparedMesh[];

  constructor(frame: FrameUniforms) {
    this.shells = COMPARED_COLUMNS.map((_, place) => new ComparedMesh(frame, place));
    for (const { object } of this.shells) this.object.add(object);
  }

  update(shown: readonly ComparedShell[]): void {
    this.shells.forEach((mesh, place) => mesh.update(shown.find((one) => one.place === place)?.shell ?? null));
  }

  /** Adds the letters; they stand at the point of the reach furthest in the column's own direction. */
  label(labels: LabelSet): void {
    this.shells.forEach((mesh, place) => {
      if (mesh.object.visible) labels.label(COMPARED_COLUMNS[place], 'box', mesh.letterPlace, 0, 0, INK.line);
    });
  }

  dispose(): void {
    for (const mesh of this.shells) mesh.dispose();
  }
}

class ComparedMesh {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  letterPlace: Vec3 = [0, 0, 0];
  private readonly uniforms: ComparedUniforms;
  private readonly direction: Vec3;
  private shown: ReachSurface | null = null;

  constructor(frame: FrameUniforms, column: number) {
    this.uniforms = { ...frame, firstLine: { value: 0 }, lineStep: { value: 1 } };
    this.object = new Mesh(new BufferGeometry(), comparedMaterial(this.uniforms, column));
    this.object.frustumCulled = false;
    this.object.renderOrder = 21;
    this.object.visible = false;
    this.object.raycast = () => undefined;
    const azimuth = LETTER_AZIMUTHS[column];
    this.direction = [Math.cos(azimuth), Math.sin(azimuth), LETTER_RISE];
  }

  update(shell: ReachSurface | null): void {
    this.object.visible = shell !== null && shell.indices.length > 0;
    if (shell === this.shown) return;
    this.shown = shell;
    if (!shell || shell.indices.length === 0) return;
    writeShell(this.object.geometry, shell);
    const { positions } = shell;
    const low = furthest(positions, [0, 0, -1])[2];
    const high = furthest(positions, [0, 0, 1])[2];
    this.uniforms.lineStep.value = Math.max((high - low) / LINES, 1e-6);
    // half a step above the lowest point, where the surface is not level
    this.uniforms.firstLine.value = low + this.uniforms.lineStep.value / 2;
    this.letterPlace = furthest(positions, this.direction);
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

/** The point, of flat xyz, that lies furthest in a direction. */
function furthest(positions: Float64Array, [dx, dy, dz]: Vec3): Vec3 {
  let best = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < positions.length; i += 3) {
    const along = positions[i] * dx + positions[i + 1] * dy + positions[i + 2] * dz;
    if (along <= most) continue;
    most = along;
    best = i;
  }
  return [positions[best], positions[best + 1], positions[best + 2]];
}
