import { Group } from 'three';
import { COMPARED_COLUMNS } from '../../jobs/compare-service.ts';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { INK } from '../colour/inks.ts';
import type { ComparedShell } from '../model/compared-shells.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import type { LabelSet } from './label-set.ts';
import { GhostShell } from './reach-drawing.ts';

/** Directions in which the letters stand at the rims of their reaches, so that they keep apart [azimuth, rad]. */
const LETTER_AZIMUTHS: readonly number[] = [2.2, 0.4, -0.9, -2.5];

/** How far upward those directions point. */
const LETTER_RISE = 0.35;

/** The reaches of compared designs as outlines, each broken in its own way and with its letter. */
export class ComparedShells {
  readonly object = new Group();
  private readonly ghosts: readonly GhostShell[];
  private shown: readonly ComparedShell[] = [];
  private readonly anchors = new WeakMap<ReachSurface, Vec3>();

  constructor(frame: FrameUniforms) {
    this.ghosts = COMPARED_COLUMNS.map((_, place) => new GhostShell(frame, place));
    for (const ghost of this.ghosts) this.object.add(ghost.object);
  }

  update(shells: readonly ComparedShell[]): void {
    this.shown = shells;
    this.ghosts.forEach((ghost, place) => ghost.update(shells.find((one) => one.place === place)?.shell ?? null));
  }

  /** Adds the letters; they stand at the point of the reach furthest in the column's own direction. */
  label(labels: LabelSet): void {
    for (const { letter, place, shell } of this.shown) {
      if (shell.positions.length === 0) continue;
      labels.label(letter, 'box', this.anchor(shell, place), 0, 0, INK.line);
    }
  }

  dispose(): void {
    for (const ghost of this.ghosts) ghost.dispose();
  }

  private anchor(shell: ReachSurface, place: number): Vec3 {
    const known = this.anchors.get(shell);
    if (known) return known;
    const azimuth = LETTER_AZIMUTHS[place];
    const found = furthest(shell.positions, [Math.cos(azimuth), Math.sin(azimuth), LETTER_RISE]);
    this.anchors.set(shell, found);
    return found;
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
