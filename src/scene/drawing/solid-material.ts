import { BackSide, ShaderMaterial } from 'three';
import { INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';

/**
 * Paper-coloured, softly shaded from the upper left of the picture as drawing practice has it, whatever the view. An
 * attribute `pen` (ink and width [CSS px] of the outline, tint toward the ink) may differ from solid to solid.
 */
export function fillMaterial(uniforms: FrameUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    vertexShader: /* glsl */ `
      ${FRAME_GLSL}
      attribute vec3 pen;
      varying vec3 viewNormal;
      varying vec4 tint;
      void main() {
        vec4 local = vec4(position, 1.0);
        vec3 localNormal = normal;
        #ifdef USE_INSTANCING
          local = instanceMatrix * local;
          mat3 turn = mat3(instanceMatrix);
          // columns are square to each other, so dividing by their squared lengths is the inverse transpose
          localNormal = turn * (normal / vec3(dot(turn[0], turn[0]), dot(turn[1], turn[1]), dot(turn[2], turn[2])));
        #endif
        viewNormal = normalMatrix * localNormal;
        tint = vec4(inks[int(pen.x + 0.5)], pen.z);
        gl_Position = projectionMatrix * modelViewMatrix * local;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      varying vec3 viewNormal;
      varying vec4 tint;
      const vec3 LIGHT = vec3(-0.42, 0.62, 0.66);
      void main() {
        vec3 n = normalize(viewNormal);
        float light = smoothstep(-0.35, 0.95, dot(n, LIGHT));
        vec3 colour = mix(inks[${INK.shade}], inks[${INK.fill}], light);
        gl_FragColor = vec4(mix(colour, tint.rgb, tint.a), 1.0);
      }
    `,
  });
}

/**
 * The outline of a convex solid: its far side, grown by a few pixels along `outlineNormal` and drawn in ink, shows past the
 * fill as a line of even width all round, in every view.
 */
export function outlineMaterial(uniforms: FrameUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    side: BackSide,
    vertexShader: /* glsl */ `
      ${FRAME_GLSL}
      attribute vec3 pen;
      attribute vec3 outlineNormal;
      varying vec3 colour;
      void main() {
        vec4 local = vec4(position, 1.0);
        vec3 outward = outlineNormal;
        #ifdef USE_INSTANCING
          local = instanceMatrix * local;
          mat3 turn = mat3(instanceMatrix);
          outward = turn * (outlineNormal / vec3(dot(turn[0], turn[0]), dot(turn[1], turn[1]), dot(turn[2], turn[2])));
        #endif
        vec4 clip = projectionMatrix * modelViewMatrix * local;
        vec2 grow = (mat3(projectionMatrix) * (normalMatrix * outward)).xy * resolution;
        float size = length(grow);
        if (size > 1e-6) clip.xy += grow / size * (2.0 * pen.y * pixelRatio) / resolution * clip.w;
        gl_Position = clip;
        colour = inks[int(pen.x + 0.5)];
      }
    `,
    fragmentShader: /* glsl */ `
      varying vec3 colour;
      void main() {
        gl_FragColor = vec4(colour, 1.0);
      }
    `,
  });
}
