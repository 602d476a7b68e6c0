import { BufferAttribute, BufferGeometry, DoubleSide, Mesh, ShaderMaterial } from 'three';
import type { SignLeg } from '../../reach/field/field-cut.ts';
import type { SignSurface } from '../../reach/field/field-sign-surface.ts';
import { INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';
import { CUT_GLSL, type ReachUniforms } from './reach-material.ts';

type SignUniforms = FrameUniforms & {
  readonly leg: { value: number };
  readonly cutPlane: ReachUniforms['cutPlane'];
};

/** Surfaces on which the force of a leg is zero, trimmed to the reach. */
export class SignDrawing {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private readonly uniforms: SignUniforms;
  private shown: SignSurface | null = null;

  constructor(frame: FrameUniforms, cutPlane: ReachUniforms['cutPlane']) {
    this.uniforms = { ...frame, leg: { value: 0 }, cutPlane };
    this.object = new Mesh(new BufferGeometry(), signMaterial(this.uniforms));
    this.object.frustumCulled = false;
    this.object.renderOrder = 21;
    this.object.visible = false;
    this.object.raycast = () => undefined;
  }

  update(surface: SignSurface | null, leg: SignLeg): void {
    this.object.visible = surface !== null && surface.indices.length > 0;
    this.uniforms.leg.value = leg === 'any' ? 0 : leg;
    if (!surface || surface === this.shown) return;
    this.shown = surface;
    this.object.geometry.dispose();
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(surface.positions, 3));
    geometry.setAttribute('normal', new BufferAttribute(surface.normals, 3));
    geometry.setAttribute('room', new BufferAttribute(surface.room, 1));
    geometry.setAttribute('ownLeg', new BufferAttribute(surface.legs, 1));
    geometry.setIndex(new BufferAttribute(surface.indices, 1));
    this.object.geometry = geometry;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

/** A wash in the colour of warnings with strokes across it, denser toward the silhouette, and an inked edge where the reach ends. */
const signMaterial = (uniforms: SignUniforms): ShaderMaterial =>
  new ShaderMaterial({
    uniforms,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      attribute float room;
      attribute float ownLeg;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;
      varying float roomHere;
      flat varying float legHere;
      void main() {
        vec4 view = modelViewMatrix * vec4(position, 1.0);
        viewNormal = normalMatrix * normal;
        toEye = projectionMatrix[2][3] < -0.5 ? -view.xyz : vec3(0.0, 0.0, 1.0);
        place = position;
        roomHere = room;
        legHere = ownLeg;
        gl_Position = projectionMatrix * view;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      ${CUT_GLSL}
      uniform float leg;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;
      varying float roomHere;
      flat varying float legHere;
      void main() {
        float rim = roomHere / max(fwidth(roomHere), 1e-9) / pixelRatio;
        if (roomHere < 0.0 || (leg > 0.5 && abs(leg - legHere) > 0.5) || openedAway(place)) discard;
        float facing = abs(dot(normalize(viewNormal), normalize(toEye)));
        float edge = (1.0 - facing) * (1.0 - facing);
        vec2 p = gl_FragCoord.xy / pixelRatio;
        float stroke = 1.0 - smoothstep(0.4, 1.1, abs(mod(p.x - p.y, 6.0) - 3.0));
        float line = 1.0 - smoothstep(1.2, 2.2, rim);
        gl_FragColor = vec4(inks[${INK.warn}], clamp(0.16 + 0.3 * edge + 0.22 * stroke + line, 0.0, 0.95));
      }
    `,
  });
