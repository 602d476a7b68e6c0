import { BufferAttribute, InstancedBufferGeometry, InterleavedBufferAttribute, Mesh, ShaderMaterial } from 'three';
import type { Vec3 } from '../../math/vec3.ts';
import { INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';
import type { LabelAtlas, LabelFrame } from './label-atlas.ts';
import { RecordBuffer } from './record-buffer.ts';

/** anchor xyz, offset px xy, size px xy, atlas place u v du dv, ink */
const STRIDE = 12;

/** Labels that face the viewer and keep their size on screen; drawn over everything. */
export class LabelSet {
  readonly object: Mesh<InstancedBufferGeometry, ShaderMaterial>;
  private readonly records: RecordBuffer;
  private readonly atlas: LabelAtlas;

  constructor(uniforms: FrameUniforms, atlas: LabelAtlas, capacity: number) {
    this.atlas = atlas;
    this.records = new RecordBuffer(STRIDE, capacity);
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0), 3));
    geometry.setIndex([0, 1, 2, 0, 2, 3]);
    geometry.instanceCount = 0;
    const material = new ShaderMaterial({
      uniforms: { ...uniforms, atlas: { value: atlas.texture } },
      transparent: true,
      depthTest: false,
      depthWrite: false,
      vertexShader: VERTEX,
      fragmentShader: FRAGMENT,
    });
    this.object = new Mesh(geometry, material);
    this.object.frustumCulled = false;
    this.object.renderOrder = 30;
    this.bind();
  }

  begin(): void {
    this.records.count = 0;
  }

  /** A label centred `dx`, `dy` CSS pixels (y up) from where the anchor appears. */
  label(text: string, frame: LabelFrame, anchor: Vec3, dx: number, dy: number, ink: number): void {
    const place = this.atlas.place(text, frame);
    const at = this.records.next(this.bind);
    const { array } = this.records;
    array[at] = anchor[0];
    array[at + 1] = anchor[1];
    array[at + 2] = anchor[2];
    array[at + 3] = dx;
    array[at + 4] = dy;
    array[at + 5] = place.width;
    array[at + 6] = place.height;
    array[at + 7] = place.u;
    array[at + 8] = place.v;
    array[at + 9] = place.du;
    array[at + 10] = place.dv;
    array[at + 11] = ink;
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
    geometry.setAttribute('anchor', new InterleavedBufferAttribute(buffer, 3, 0));
    geometry.setAttribute('box', new InterleavedBufferAttribute(buffer, 4, 3));
    geometry.setAttribute('place', new InterleavedBufferAttribute(buffer, 4, 7));
    geometry.setAttribute('ink', new InterleavedBufferAttribute(buffer, 1, 11));
  };
}

/** Height of the drawing from which labels have their full size, and the share of it below which they shrink no further [CSS px]. */
const FULL_HEIGHT = 320;
const LEAST_SCALE = 0.7;

const VERTEX = /* glsl */ `
${FRAME_GLSL}
float labelScale() {
  return clamp(resolution.y / pixelRatio / ${FULL_HEIGHT}.0, ${LEAST_SCALE}, 1.0);
}
attribute vec3 anchor;
attribute vec4 box;
attribute vec4 place;
attribute float ink;
varying vec2 at;
varying vec3 inkColour;
varying vec3 paperColour;
void main() {
  vec4 clip = projectionMatrix * modelViewMatrix * vec4(anchor, 1.0);
  // whole device pixels, so that thin strokes stay sharp
  vec2 centre = floor((clip.xy / clip.w * 0.5 + 0.5) * resolution + 0.5);
  vec2 pixel = centre + floor((box.xy + (position.xy - 0.5) * box.zw) * pixelRatio * labelScale() + 0.5);
  gl_Position = vec4((pixel / resolution * 2.0 - 1.0) * clip.w, clip.z, clip.w);
  at = place.xy + position.xy * place.zw;
  inkColour = inks[int(ink + 0.5)];
  paperColour = inks[${INK.paper}];
}
`;

const FRAGMENT = /* glsl */ `
uniform sampler2D atlas;
varying vec2 at;
varying vec3 inkColour;
varying vec3 paperColour;
void main() {
  vec4 cover = texture2D(atlas, at);
  if (cover.a < 0.01) discard;
  gl_FragColor = vec4(mix(paperColour, inkColour, clamp(cover.r / max(cover.r + cover.g, 1e-3), 0.0, 1.0)), cover.a);
}
`;
