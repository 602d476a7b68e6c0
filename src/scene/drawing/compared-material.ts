import { DoubleSide, ShaderMaterial } from 'three';
import { INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';

/** Uniforms of one compared shell. */
export interface ComparedUniforms extends FrameUniforms {
  /** Height of the lowest line, and from line to line [mm]. */
  readonly firstLine: { value: number };
  readonly lineStep: { value: number };
}

/**
 * A compared reach as lines round it at even heights, each column's lines broken in their own way (drawn through, long dashes, dots,
 * dash and dot), and the breath of an outline where the surface turns away.
 */
export function comparedMaterial(uniforms: ComparedUniforms, column: number): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    defines: { COLUMN: column },
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;
      void main() {
        vec4 view = modelViewMatrix * vec4(position, 1.0);
        viewNormal = normalMatrix * normal;
        toEye = projectionMatrix[2][3] < -0.5 ? -view.xyz : vec3(0.0, 0.0, 1.0);
        place = position;
        gl_Position = projectionMatrix * view;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      uniform float firstLine;
      uniform float lineStep;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;

      /** 1 on a dash; whole numbers of dashes go round the axis, so that they meet. */
      float dash() {
        float turn = atan(place.y, place.x) / 6.28318530718 + 0.5;
        if (COLUMN == 1) return step(fract(turn * 30.0), 0.62);
        if (COLUMN == 2) return step(fract(turn * 75.0), 0.42);
        float part = fract(turn * 22.0);
        if (COLUMN == 3) return step(part, 0.5) + step(abs(part - 0.75), 0.06);
        return 1.0;
      }

      void main() {
        float facing = abs(dot(normalize(viewNormal), normalize(toEye)));
        float edge = pow(1.0 - facing, 5.0);
        float steps = (place.z - firstLine) / lineStep;
        float width = fwidth(steps);
        float line = 1.0 - smoothstep(0.7 * pixelRatio, 1.5 * pixelRatio, abs(fract(steps + 0.5) - 0.5) / max(width, 1e-6));
        // on level ground a line would be a smear
        line *= 1.0 - smoothstep(0.12, 0.4, width);
        float far = gl_FrontFacing ? 1.0 : 0.5;
        gl_FragColor = vec4(inks[${INK.line}], max(0.8 * line * dash(), 0.3 * edge) * far);
      }
    `,
  });
}
