import { BufferAttribute, BufferGeometry, Mesh, type ShaderMaterial } from 'three';
import type { FrameUniforms } from './frame-uniforms.ts';
import { washMaterial } from './wash-material.ts';

/** Triangles under a thin wash, replaced as a whole when the bodies they stand for change. */
export class WashMesh {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private readonly positions: number[] = [];
  private readonly washes: number[] = [];

  constructor(uniforms: FrameUniforms) {
    this.object = new Mesh(new BufferGeometry(), washMaterial(uniforms));
    this.object.frustumCulled = false;
    this.object.renderOrder = 5;
    this.object.visible = false;
  }

  begin(): void {
    this.positions.length = 0;
    this.washes.length = 0;
  }

  /** @param triangles flat, 9 numbers each [mm] */
  add(triangles: ArrayLike<number>, ink: number, opacity: number): void {
    for (let i = 0; i < triangles.length; i++) this.positions.push(triangles[i]);
    for (let i = 0; i < triangles.length; i += 3) this.washes.push(ink, opacity);
  }

  end(): void {
    const { geometry } = this.object;
    // frees the memory on the card that belongs to the former triangles
    geometry.dispose();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(this.positions), 3));
    geometry.setAttribute('wash', new BufferAttribute(Float32Array.from(this.washes), 2));
    this.object.visible = this.positions.length > 0;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}
