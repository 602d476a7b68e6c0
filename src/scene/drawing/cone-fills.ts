import { BufferAttribute, BufferGeometry, DynamicDrawUsage, Mesh, type ShaderMaterial } from 'three';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { RIM_CORNERS } from '../shape/cone-rim.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { washMaterial } from './wash-material.ts';

const CORNERS = 1 + RIM_CORNERS;

/** The washes of six joints' limits, each a fan from the joint to the rim of its room. */
export class ConeFills {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private readonly positions: BufferAttribute;
  private readonly washes: BufferAttribute;

  constructor(uniforms: FrameUniforms) {
    const geometry = new BufferGeometry();
    this.positions = new BufferAttribute(new Float32Array(3 * LEG_COUNT * CORNERS), 3).setUsage(DynamicDrawUsage);
    this.washes = new BufferAttribute(new Float32Array(2 * LEG_COUNT * CORNERS), 2).setUsage(DynamicDrawUsage);
    geometry.setAttribute('position', this.positions);
    geometry.setAttribute('wash', this.washes);
    geometry.setIndex(coneIndices());
    this.object = new Mesh(geometry, washMaterial(uniforms));
    this.object.frustumCulled = false;
    this.object.renderOrder = 6;
  }

  /**
   * @param apex of cone `index`, 0 to 5
   * @param rims flat rims of all six cones, xyz each
   */
  set(index: number, apex: Vec3, rims: ArrayLike<number>, ink: number, opacity: number): void {
    const first = index * CORNERS;
    this.positions.setXYZ(first, apex[0], apex[1], apex[2]);
    for (let i = 0; i < RIM_CORNERS; i++) {
      const at = 3 * (index * RIM_CORNERS + i);
      this.positions.setXYZ(first + 1 + i, rims[at], rims[at + 1], rims[at + 2]);
    }
    for (let i = 0; i < CORNERS; i++) this.washes.setXY(first + i, ink, opacity);
  }

  end(): void {
    this.positions.needsUpdate = true;
    this.washes.needsUpdate = true;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

function coneIndices(): number[] {
  const indices: number[] = [];
  for (let cone = 0; cone < LEG_COUNT; cone++) {
    const apex = cone * CORNERS;
    for (let i = 0; i < RIM_CORNERS; i++) indices.push(apex, apex + 1 + i, apex + 1 + ((i + 1) % RIM_CORNERS));
  }
  return indices;
}
