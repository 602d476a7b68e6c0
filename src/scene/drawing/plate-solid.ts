import { BufferAttribute, BufferGeometry, DynamicDrawUsage, Group, Mesh, type ShaderMaterial } from 'three';
import { OUTLINE_CORNERS } from '../shape/plate-outline.ts';
import type { PlateShape } from '../shape/plate-shape.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { fillMaterial, outlineMaterial } from './solid-material.ts';
import type { SolidPen } from './solid-set.ts';

const N = OUTLINE_CORNERS;
/** Rings of corners: the two faces outside and inside, then the outer wall and the wall of the opening at both heights. */
const TOP = 0;
const BOTTOM = N;
const SIDE_TOP = 2 * N;
const SIDE_BOTTOM = 3 * N;
const INNER_TOP = 4 * N;
const INNER_BOTTOM = 5 * N;
const WALL_TOP = 6 * N;
const WALL_BOTTOM = 7 * N;
const CORNERS = 8 * N;

/** One plate: a flat solid with a round opening (perhaps of no size) whose outline and thickness change in place. */
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

  update({ outline, innerFace, outerFace, opening }: PlateShape, pen: SolidPen): void {
    const heights = [
      [0, Math.max(innerFace, outerFace), 1],
      [N, Math.min(innerFace, outerFace), -1],
    ] as const;
    const [cx, cy] = opening > 0 ? [0, 0] : middleOf(outline.corners);
    for (let i = 0; i < N; i++) {
      const x = outline.corners[2 * i];
      const y = outline.corners[2 * i + 1];
      const nx = outline.normals[2 * i];
      const ny = outline.normals[2 * i + 1];
      for (const [step, z, up] of heights) {
        this.corner(TOP + step + i, x, y, z, 0, 0, up, nx, ny, up);
        this.corner(SIDE_TOP + step + i, x, y, z, nx, ny, 0, nx, ny, up);
        const [ix, iy] = [cx + opening * nx, cy + opening * ny];
        // without an opening all inner corners are one point and must stay one when the outline grows
        const [ox, oy] = opening > 0 ? [-nx, -ny] : [0, 0];
        this.corner(INNER_TOP + step + i, ix, iy, z, 0, 0, up, ox, oy, up);
        this.corner(WALL_TOP + step + i, ix, iy, z, -nx, -ny, 0, -nx, -ny, up);
      }
    }
    for (let i = 0; i < CORNERS; i++) this.pens.setXYZ(i, pen.ink, pen.width, pen.tint);
    // without an opening its wall is a line, and left out
    this.geometry.setDrawRange(0, opening > 0 ? Number.POSITIVE_INFINITY : CLOSED_INDICES);
    for (const attribute of [this.positions, this.normals, this.outline, this.pens]) attribute.needsUpdate = true;
  }

  dispose(): void {
    this.geometry.dispose();
    for (const material of this.materials) material.dispose();
  }

  /** @param ox, oy, up direction in which the outline grows, to be halved between them */
  private corner(
    index: number,
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    ox: number,
    oy: number,
    up: number,
  ): void {
    this.positions.setXYZ(index, x, y, z);
    this.normals.setXYZ(index, nx, ny, nz);
    this.outline.setXYZ(index, ox * Math.SQRT1_2, oy * Math.SQRT1_2, up * Math.SQRT1_2);
  }
}

function middleOf(corners: Float64Array): readonly [number, number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < N; i++) {
    x += corners[2 * i] / N;
    y += corners[2 * i + 1] / N;
  }
  return [x, y];
}

function newAttribute(): BufferAttribute {
  const attribute = new BufferAttribute(new Float32Array(3 * CORNERS), 3);
  attribute.setUsage(DynamicDrawUsage);
  return attribute;
}

/** Indices of faces and outer wall, which come first. */
const CLOSED_INDICES = 18 * N;

function plateIndices(): number[] {
  const closed: number[] = [];
  const wall: number[] = [];
  const strip = (to: number[], a: number, b: number, i: number) => {
    const next = (i + 1) % N;
    to.push(a + i, a + next, b + next, a + i, b + next, b + i);
  };
  for (let i = 0; i < N; i++) {
    strip(closed, TOP, INNER_TOP, i);
    strip(closed, INNER_BOTTOM, BOTTOM, i);
    strip(closed, SIDE_BOTTOM, SIDE_TOP, i);
    strip(wall, WALL_TOP, WALL_BOTTOM, i);
  }
  return [...closed, ...wall];
}
