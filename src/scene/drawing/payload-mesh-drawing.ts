import { BufferAttribute, BufferGeometry, Mesh, type ShaderMaterial } from 'three';
import type { Vec3 } from '../../math/vec3.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { fillMaterial } from './solid-material.ts';

/** The triangles of an imported payload, paper-coloured and shaded face by face, in the platform's frame. */
export class PayloadMeshDrawing {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private drawn: Float32Array | null = null;

  constructor(uniforms: FrameUniforms) {
    const material = fillMaterial(uniforms);
    // files are not to be trusted with which side of a triangle is outside
    material.side = 2;
    this.object = new Mesh(new BufferGeometry(), material);
    this.object.frustumCulled = false;
    this.object.visible = false;
  }

  /** @param mesh triangles from their middle, and where that is [mm]; null for none */
  update(mesh: { readonly triangles: Float32Array; readonly middle: Vec3 } | null): void {
    this.object.visible = mesh !== null;
    if (!mesh) return;
    this.object.position.set(...mesh.middle);
    if (this.drawn === mesh.triangles) return;
    this.drawn = mesh.triangles;
    const { geometry } = this.object;
    geometry.dispose();
    geometry.setAttribute('position', new BufferAttribute(mesh.triangles, 3));
    geometry.setAttribute('pen', new BufferAttribute(new Float32Array(mesh.triangles.length), 3));
    geometry.computeVertexNormals();
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}
