import { BufferAttribute, InstancedBufferGeometry, InterleavedBufferAttribute, Mesh, ShaderMaterial } from 'three';
import { FRAME_GLSL, type FrameUniforms, LIFT_GLSL } from './frame-uniforms.ts';
import { RecordBuffer } from './record-buffer.ts';

/** centre xyz, outer radius, ink, share of the radius that is open, opacity */
const STRIDE = 7;
const SIDES = 16;

/** Small rings or discs that lie level in the plate's frame: its holes. One draw call. */
export class HoleMarks {
  readonly object: Mesh<InstancedBufferGeometry, ShaderMaterial>;
  private readonly records: RecordBuffer;

  constructor(uniforms: FrameUniforms, capacity: number) {
    this.records = new RecordBuffer(STRIDE, capacity);
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(ringCorners(), 3));
    geometry.setIndex(ringIndices());
    geometry.instanceCount = 0;
    const material = new ShaderMaterial({
      uniforms,
      transparent: true,
      depthWrite: false,
      side: 2,
      vertexShader: /* glsl */ `
        ${FRAME_GLSL}
        ${LIFT_GLSL}
        attribute vec4 hole;
        attribute vec3 pen;
        varying vec4 colour;
        void main() {
          float share = position.z < 0.5 ? pen.y : 1.0;
          vec4 at = modelViewMatrix * vec4(hole.xyz + vec3(position.xy * share * hole.w, 0.0), 1.0);
          gl_Position = projectionMatrix * lifted(at, 0.0008);
          colour = vec4(inks[int(pen.x + 0.5)], pen.z);
        }
      `,
      fragmentShader: /* glsl */ `
        varying vec4 colour;
        void main() {
          gl_FragColor = colour;
        }
      `,
    });
    this.object = new Mesh(geometry, material);
    this.object.frustumCulled = false;
    this.object.renderOrder = 5;
    this.bind();
  }

  begin(): void {
    this.records.count = 0;
  }

  hole(x: number, y: number, z: number, radius: number, ink: number, open: number, opacity: number): void {
    const at = this.records.next(this.bind);
    const { array } = this.records;
    array[at] = x;
    array[at + 1] = y;
    array[at + 2] = z;
    array[at + 3] = radius;
    array[at + 4] = ink;
    array[at + 5] = open;
    array[at + 6] = opacity;
  }

  end(): void {
    this.records.commit();
    this.object.geometry.instanceCount = this.records.count;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }

  private readonly bind = (): void => {
    const { geometry } = this.object;
    const { buffer } = this.records;
    geometry.dispose();
    geometry.setAttribute('hole', new InterleavedBufferAttribute(buffer, 4, 0));
    geometry.setAttribute('pen', new InterleavedBufferAttribute(buffer, 3, 4));
  };
}

/** x, y on the unit circle; z says inner (0) or outer (1) edge. */
function ringCorners(): Float32Array {
  const corners = new Float32Array(6 * SIDES);
  for (let i = 0; i < SIDES; i++) {
    const angle = (2 * Math.PI * i) / SIDES;
    corners.set([Math.cos(angle), Math.sin(angle), 0, Math.cos(angle), Math.sin(angle), 1], 6 * i);
  }
  return corners;
}

function ringIndices(): number[] {
  const indices: number[] = [];
  for (let i = 0; i < SIDES; i++) {
    const [a, b, c, d] = [2 * i, 2 * i + 1, 2 * ((i + 1) % SIDES) + 1, 2 * ((i + 1) % SIDES)];
    indices.push(a, b, c, a, c, d);
  }
  return indices;
}
