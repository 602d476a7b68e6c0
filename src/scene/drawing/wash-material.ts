import { DoubleSide, ShaderMaterial } from 'three';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';

/** A thin wash of ink over what lies behind: attribute `wash` is the number of the ink and the opacity. */
export const washMaterial = (uniforms: FrameUniforms): ShaderMaterial =>
  new ShaderMaterial({
    uniforms,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      ${FRAME_GLSL}
      attribute vec2 wash;
      varying vec4 colour;
      void main() {
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
        colour = vec4(inks[int(wash.x + 0.5)], wash.y);
      }
    `,
    fragmentShader: /* glsl */ `
      varying vec4 colour;
      void main() {
        gl_FragColor = colour;
      }
    `,
  });
