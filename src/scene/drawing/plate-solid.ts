import { BufferAttribute, BufferGeometry, DynamicDrawUsage, Group, Mesh, type ShaderMaterial } from 'three';
import { OUTLINE_CORNERS } from '../shape/plate-outline.ts';
import type { PlateShape } from '../shape/plate-shape.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { fillMaterial, outlineMaterial } from './solid-material.ts';
import type { SolidPen } from './solid-set.ts';

const N = OUTLINE_CORNERS;
/** Corners: top face, bottom face, side at the top, side at the bottom, and the two face middles. */
const TOP = 0;
const BOTTOM = N;
const SIDE_TOP = 2 * N;
const SIDE_BOTTOM = 3 * N;
const MIDDLES = 4 * N;
const CORNERS = 4 * N + 2;

/** One plate: a flat solid whose outline and thickness change in place. */
export class PlateSolid {
  readonly object = new Group();
  private readonly geometry = new BufferGeometry();
  private readonly materials: readonly ShaderMaterial[];
  private readonly positions = newAttribute();
  private readonly normals = newAttribute();
  private readonly outline = newAttribute();
  private readonly pens = newAttribute();

  constructor(uniforms: FrameUniforms) {
    this.geometry.setAttribute('position', this.positions);
    this.geometry.setAttribute('normal', this.normals);
    this.geometry.setAttribute('outlineNormal', this.outline);
    this.geometry.setAttribute('pen', this.pens);
    this.geometry.setIndex(plateIndices());
    this.materials = [fillMaterial(uniforms), outlineMaterial(uniforms)];
    for (const material of this.materials) {
      const mesh = new Mesh(this.geometry, material);
      mesh.frustumCulled = false;
      this.object.add(mesh);
    }
  }

  update({ outline, innerFace, outerFace }: PlateShape, pen: SolidPen): void {
    const high = Math.max(innerFace, outerFace);
    const low = Math.min(innerFace, outerFace);
    const slant = Math.SQRT1_2;
    let cx = 0;
    let cy = 0;
    for (let i = 0; i < N; i++) {
      const x = outline.corners[2 * i];
      const y = outline.corners[2 * i + 1];
      const nx = outline.normals[2 * i];
      const ny = outline.normals[2 * i + 1];
      cx += x / N;
      cy += y / N;
      for (const [first, z, up] of [
        [TOP, high, 1],
        [BOTTOM, low, -1],
      ] as const) {
        this.positions.setXYZ(first + i, x, y, z);
        this.normals.setXYZ(first + i, 0, 0, up);
        this.outline.setXYZ(first + i, nx * slant, ny * slant, up * slant);
      }
      for (const [first, z, up] of [
        [SIDE_TOP, high, 1],
        [SIDE_BOTTOM, low, -1],
      ] as const) {
        this.positions.setXYZ(first + i, x, y, z);
        this.normals.setXYZ(first + i, nx, ny, 0);
        this.outline.setXYZ(first + i, nx * slant, ny * slant, up * slant);
      }
    }
    for (const [step, z, up] of [
      [0, high, 1],
      [1, low, -1],
    ] as const) {
      this.positions.setXYZ(MIDDLES + step, cx, cy, z);
      this.normals.setXYZ(MIDDLES + step, 0, 0, up);
      this.outline.setXYZ(MIDDLES + step, 0, 0, up);
    }
    for (let i = 0; i < CORNERS; i++) this.pens.setXYZ(i, pen.ink, pen.width, pen.tint);
    for (const attribute of [this.positions, this.normals, this.outline, this.pens]) attribute.needsUpdate = true;
  }

  dispose(): void {
    this.geometry.dispose();
    for (const material of this.materials) material.dispose();
  }
}

function newAttribute(): BufferAttribute {
  const attribute = new BufferAttribute(new Float32Array(3 * CORNERS), 3);
  attribute.setUsage(DynamicDrawUsage);
  return attribute;
}

function plateIndices(): number[] {
  const indices: number[] = [];
  for (let i = 0; i < N; i++) {
    const next = (i + 1) % N;
    indices.push(MIDDLES, TOP + i, TOP + next);
    indices.push(MIDDLES + 1, BOTTOM + next, BOTTOM + i);
    indices.push(SIDE_BOTTOM + i, SIDE_BOTTOM + next, SIDE_TOP + next);
    indices.push(SIDE_BOTTOM + i, SIDE_TOP + next, SIDE_TOP + i);
  }
  return indices;
}
