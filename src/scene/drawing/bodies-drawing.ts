import { Group } from 'three';
import type { Solid } from '../../kinematics/bodies.ts';
import type { ClearanceSpec } from '../../kinematics/keep-out.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { INK } from '../colour/inks.ts';
import { drawnSolid } from './drawn-solid.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import type { LabelSet } from './label-set.ts';
import { PENS } from './pens.ts';
import { WashMesh } from './wash-mesh.ts';

/** Dash of a keep-out's lines as a share of its longest edge; an edge shorter than three dashes is drawn whole. */
const DASH_SHARE = 0.05;

/** Payload and keep-outs that are fixed to one plate, in its frame: a wash and their edges, dashed for keep-outs. */
export class BodiesDrawing {
  readonly object = new Group();
  private readonly plate: PlateName;
  private readonly washes: WashMesh;
  private readonly lines: InkLines;
  private readonly names: { readonly text: string; readonly at: Vec3 }[] = [];
  private drawn: ClearanceSpec | null = null;

  constructor(uniforms: FrameUniforms, plate: PlateName) {
    this.plate = plate;
    this.washes = new WashMesh(uniforms);
    this.lines = new InkLines(uniforms, 256);
    this.object.add(this.washes.object, this.lines.object);
  }

  /** @param spec the bodies; the same object is not drawn anew */
  update(spec: ClearanceSpec): void {
    if (this.drawn === spec) return;
    this.drawn = spec;
    this.names.length = 0;
    this.washes.begin();
    this.lines.begin();
    if (spec.payload && this.plate === 'platform') {
      // a hull bounds a mesh that may be drawn itself
      const pen = spec.payload.kind === 'hull' ? PENS.bound : PENS.payload;
      this.add(spec.payload, pen, 0.06, 'payload', false);
    }
    spec.keepOuts.forEach(({ solid, fixedTo }, index) => {
      if (fixedTo === this.plate) this.add(solid, PENS.keepOut, 0.08, `K${index + 1}`, true);
    });
    this.washes.end();
    this.lines.end();
  }

  /** @param placed puts points of the plate's frame into the base frame */
  label(labels: LabelSet, placed: (point: Vec3) => Vec3): void {
    for (const { text, at } of this.names) labels.label(text, 'bare', placed(at), 0, 9, INK.line);
  }

  dispose(): void {
    this.washes.dispose();
    this.lines.dispose();
  }

  private add(solid: Solid, pen: Pen, opacity: number, name: string, dashed: boolean): void {
    const { triangles, edges, points } = drawnSolid(solid);
    this.washes.add(triangles, pen.ink, opacity);
    const dash = DASH_SHARE * longestEdge(edges);
    for (let i = 0; i < edges.length; i += 6) {
      const from: Vec3 = [edges[i], edges[i + 1], edges[i + 2]];
      const to: Vec3 = [edges[i + 3], edges[i + 4], edges[i + 5]];
      // the short pieces of a round edge are drawn every other one, which comes to the same
      if (!dashed) this.lines.line(from, to, pen);
      else if (Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]) > 3 * dash)
        this.lines.dashes(from, to, dash, pen);
      else if ((i / 6) % 4 < 2) this.lines.line(from, to, pen);
    }
    this.names.push({ text: name, at: topOf(points) });
  }
}

function longestEdge(edges: Float64Array): number {
  let longest = 0;
  for (let i = 0; i < edges.length; i += 6) {
    longest = Math.max(
      longest,
      Math.hypot(edges[i + 3] - edges[i], edges[i + 4] - edges[i + 1], edges[i + 5] - edges[i + 2]),
    );
  }
  return longest;
}

/** Over the middle of a body, at its top. */
function topOf(points: Float64Array): Vec3 {
  let [lowX, highX, lowY, highY, top] = [Infinity, -Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 3) {
    lowX = Math.min(lowX, points[i]);
    highX = Math.max(highX, points[i]);
    lowY = Math.min(lowY, points[i + 1]);
    highY = Math.max(highY, points[i + 1]);
    top = Math.max(top, points[i + 2]);
  }
  return [(lowX + highX) / 2, (lowY + highY) / 2, top];
}
