import { BufferAttribute, InstancedBufferGeometry, InterleavedBufferAttribute, Mesh, ShaderMaterial } from 'three';
import type { Vec3 } from '../../math/vec3.ts';
import { FRAME_GLSL, type FrameUniforms, LIFT_GLSL } from './frame-uniforms.ts';
import { RecordBuffer } from './record-buffer.ts';

/** How a line is drawn: number of its ink, width [CSS px] and opacity. */
export interface Pen {
  readonly ink: number;
  readonly width: number;
  readonly opacity: number;
}

/** start xyz, end xyz, ink, width, opacity */
const STRIDE = 9;

/** Share of the distance by which lines lie in front of the surfaces they are drawn on. */
const LIFT = '0.0012';

const VERTEX = /* glsl */ `
${FRAME_GLSL}
${LIFT_GLSL}
attribute vec3 lineStart;
attribute vec3 lineEnd;
attribute vec3 pen;
varying vec4 colour;

void main() {
  vec4 a = modelViewMatrix * vec4(lineStart, 1.0);
  vec4 b = modelViewMatrix * vec4(lineEnd, 1.0);
  if (projectionMatrix[2][3] < -0.5) {
    // cut off what is behind the eye: it has no place on screen
    float near = -0.51 * projectionMatrix[3][2] / projectionMatrix[2][2];
    if (a.z > -near && b.z < -near) a = mix(b, a, (-near - b.z) / (a.z - b.z));
    else if (b.z > -near && a.z < -near) b = mix(a, b, (-near - a.z) / (b.z - a.z));
  }
  vec4 clipA = projectionMatrix * lifted(a, ${LIFT});
  vec4 clipB = projectionMatrix * lifted(b, ${LIFT});
  vec2 along = (clipB.xy / clipB.w - clipA.xy / clipA.w) * resolution;
  float size = length(along);
  along = size > 1e-6 ? along / size : vec2(1.0, 0.0);
  float halfWidth = 0.5 * pen.y * pixelRatio;
  // ends reach a little further, so that neighbouring pieces of a curve leave no notch
  vec2 offset = halfWidth * (vec2(-along.y, along.x) * position.y + along * (position.x - 0.5));
  vec4 clip = position.x < 0.5 ? clipA : clipB;
  clip.xy += 2.0 * offset / resolution * clip.w;
  gl_Position = clip;
  colour = vec4(inks[int(pen.x + 0.5)], pen.z);
}
`;

const FRAGMENT = /* glsl */ `
varying vec4 colour;
void main() {
  gl_FragColor = colour;
}
`;

/**
 * Straight lines of a constant width on screen, each with its own ink, width and opacity, in one draw call. Written
 * anew for every drawing: {@link begin}, any number of lines, {@link end}.
 */
export class InkLines {
  readonly object: Mesh<InstancedBufferGeometry, ShaderMaterial>;
  private readonly records: RecordBuffer;

  constructor(uniforms: FrameUniforms, capacity: number) {
    this.records = new RecordBuffer(STRIDE, capacity);
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0), 3));
    geometry.setIndex([0, 1, 2, 0, 2, 3]);
    geometry.instanceCount = 0;
    const material = new ShaderMaterial({
      uniforms,
      vertexShader: VERTEX,
      fragmentShader: FRAGMENT,
      transparent: true,
      depthWrite: false,
    });
    this.object = new Mesh(geometry, material);
    this.object.frustumCulled = false;
    this.object.renderOrder = 10;
    this.bind();
  }

  begin(): void {
    this.records.count = 0;
  }

  line(from: Vec3, to: Vec3, pen: Pen): void {
    this.segment(from[0], from[1], from[2], to[0], to[1], to[2], pen);
  }

  segment(ax: number, ay: number, az: number, bx: number, by: number, bz: number, pen: Pen): void {
    const at = this.records.next(this.bind);
    const { array } = this.records;
    array[at] = ax;
    array[at + 1] = ay;
    array[at + 2] = az;
    array[at + 3] = bx;
    array[at + 4] = by;
    array[at + 5] = bz;
    array[at + 6] = pen.ink;
    array[at + 7] = pen.width;
    array[at + 8] = pen.opacity;
  }

  /** A closed line through points given flat, xyz each. */
  loop(points: ArrayLike<number>, offset: number, count: number, pen: Pen, every = 1): void {
    for (let i = 0; i < count; i += every) {
      const a = offset + 3 * i;
      const b = offset + 3 * ((i + 1) % count);
      this.segment(points[a], points[a + 1], points[a + 2], points[b], points[b + 1], points[b + 2], pen);
    }
  }

  /** An open line through points given flat, xyz each. */
  path(points: ArrayLike<number>, offset: number, count: number, pen: Pen): void {
    for (let i = 0; i + 1 < count; i++) {
      const a = offset + 3 * i;
      this.segment(points[a], points[a + 1], points[a + 2], points[a + 3], points[a + 4], points[a + 5], pen);
    }
  }

  /** A line of dashes `dash` mm long with gaps as long. */
  dashes(from: Vec3, to: Vec3, dash: number, pen: Pen): void {
    const span = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
    const count = Math.max(1, Math.round(span / (2 * dash)));
    for (let i = 0; i < count; i++) {
      const a = (2 * i + 0.5) / (2 * count);
      const b = (2 * i + 1.5) / (2 * count);
      this.segment(
        from[0] + a * (to[0] - from[0]),
        from[1] + a * (to[1] - from[1]),
        from[2] + a * (to[2] - from[2]),
        from[0] + b * (to[0] - from[0]),
        from[1] + b * (to[1] - from[1]),
        from[2] + b * (to[2] - from[2]),
        pen,
      );
    }
  }

  end(): void {
    this.records.commit();
    this.object.geometry.instanceCount = this.records.count;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }

  /** Hands the geometry its (new) buffer; the old one's memory on the card goes with the disposed attributes. */
  private readonly bind = (): void => {
    const { geometry } = this.object;
    const { buffer } = this.records;
    geometry.dispose();
    geometry.setAttribute('lineStart', new InterleavedBufferAttribute(buffer, 3, 0));
    geometry.setAttribute('lineEnd', new InterleavedBufferAttribute(buffer, 3, 3));
    geometry.setAttribute('pen', new InterleavedBufferAttribute(buffer, 3, 6));
  };
}
