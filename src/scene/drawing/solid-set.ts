import {
  BufferAttribute,
  BufferGeometry,
  DynamicDrawUsage,
  Group,
  InstancedBufferAttribute,
  InstancedMesh,
  Matrix4,
  type ShaderMaterial,
} from 'three';
import type { Vec3 } from '../../math/vec3.ts';
import { squareAxes } from '../shape/cone-rim.ts';
import type { SolidMesh } from '../shape/unit-solids.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { fillMaterial, outlineMaterial } from './solid-material.ts';

/** Outline of a solid, and how far its fill leans toward that ink (0 to 1). */
export interface SolidPen {
  readonly ink: number;
  readonly width: number;
  readonly tint: number;
}

/** Many copies of one solid, each filled like paper and outlined in ink; two draw calls however many there are. */
export class SolidSet {
  readonly object = new Group();
  /** What a pointer can hit. */
  readonly fill: InstancedMesh<BufferGeometry, ShaderMaterial>;
  private readonly outline: InstancedMesh<BufferGeometry, ShaderMaterial>;
  private readonly pens: InstancedBufferAttribute;
  private readonly matrix = new Matrix4();

  constructor(uniforms: FrameUniforms, solid: SolidMesh, capacity: number) {
    const geometry = solidGeometry(solid);
    this.pens = new InstancedBufferAttribute(new Float32Array(3 * capacity), 3);
    this.pens.setUsage(DynamicDrawUsage);
    geometry.setAttribute('pen', this.pens);
    this.fill = new InstancedMesh(geometry, fillMaterial(uniforms), capacity);
    this.outline = new InstancedMesh(geometry, outlineMaterial(uniforms), capacity);
    this.outline.instanceMatrix = this.fill.instanceMatrix;
    this.fill.instanceMatrix.setUsage(DynamicDrawUsage);
    for (const mesh of [this.fill, this.outline]) {
      mesh.frustumCulled = false;
      mesh.count = 0;
      this.object.add(mesh);
    }
  }

  begin(): void {
    this.fill.count = 0;
  }

  /** A copy between two points, as thick as `diameter`; nothing where they coincide. */
  between(from: Vec3, to: Vec3, diameter: number, pen: SolidPen): void {
    const span: Vec3 = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
    const length = Math.hypot(span[0], span[1], span[2]);
    if (!(length > 0)) return;
    const axis: Vec3 = [span[0] / length, span[1] / length, span[2] / length];
    const [u, v] = squareAxes(axis);
    const d = diameter;
    // biome-ignore format: a matrix
    this.matrix.set(
      d * u[0], d * v[0], span[0], from[0],
      d * u[1], d * v[1], span[1], from[1],
      d * u[2], d * v[2], span[2], from[2],
      0, 0, 0, 1,
    );
    this.put(pen);
  }

  /** A copy about a point, unturned. */
  around(centre: Vec3, diameter: number, pen: SolidPen): void {
    this.matrix.makeScale(diameter, diameter, diameter).setPosition(centre[0], centre[1], centre[2]);
    this.put(pen);
  }

  end(): void {
    this.outline.count = this.fill.count;
    this.fill.instanceMatrix.needsUpdate = true;
    this.pens.needsUpdate = true;
    // a pointer's ray is tested against it first
    this.fill.computeBoundingSphere();
  }

  dispose(): void {
    this.fill.geometry.dispose();
    for (const mesh of [this.fill, this.outline]) {
      mesh.material.dispose();
      mesh.dispose();
    }
  }

  private put(pen: SolidPen): void {
    const index = this.fill.count++;
    this.fill.setMatrixAt(index, this.matrix);
    this.pens.setXYZ(index, pen.ink, pen.width, pen.tint);
  }
}

/** A solid as three.js takes it, rounded to Float32. */
export function solidGeometry({ positions, normals, outlineNormals, indices }: SolidMesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute('normal', new BufferAttribute(Float32Array.from(normals), 3));
  geometry.setAttribute('outlineNormal', new BufferAttribute(Float32Array.from(outlineNormals), 3));
  geometry.setIndex(new BufferAttribute(Uint16Array.from(indices), 1));
  return geometry;
}
