import { DataTexture, DoubleSide, LinearFilter, RGBAFormat, ShaderMaterial, UnsignedByteType } from 'three';
import { cividisTable, TABLE_SIZE } from '../colour/cividis.ts';
import { FIRST_LIMIT_INK, INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';

/** What the reach is coloured by, in the shaders. */
export const COLOUR_BY = { firmness: 0, limit: 1 } as const;

/** Uniforms of the reach, shared by its cloud and its shell. */
export interface ReachUniforms extends FrameUniforms {
  readonly table: { value: DataTexture };
  readonly colourBy: { value: number };
  /** 1: the picture belongs to an older design and is drawn grey. */
  readonly stale: { value: number };
  /** Distance of height lines on the shell [mm]. */
  readonly contourStep: { value: number };
}

export function newReachUniforms(frame: FrameUniforms): ReachUniforms {
  const table = new DataTexture(cividisTable(), TABLE_SIZE, 1, RGBAFormat, UnsignedByteType);
  table.magFilter = LinearFilter;
  table.minFilter = LinearFilter;
  table.needsUpdate = true;
  return {
    ...frame,
    table: { value: table },
    colourBy: { value: COLOUR_BY.firmness },
    stale: { value: 0 },
    contourStep: { value: 10 },
  };
}

const COLOUR_GLSL = /* glsl */ `
uniform sampler2D table;
uniform float colourBy;
uniform float stale;

/** Hatching of a limit's class in CSS pixels: dashes for its four kinds that differ without colour. 1 on a stroke. */
float hatch(float limit, vec2 pixel) {
  vec2 p = pixel / pixelRatio;
  float coordinate = limit < 0.5 ? p.x + p.y : limit < 1.5 ? p.x - p.y : limit < 2.5 ? p.y * 1.4142 : 0.0;
  float stroke = 1.0 - smoothstep(0.9, 1.7, abs(mod(coordinate, 9.0) - 4.5));
  vec2 cell = mod(p, 7.0) - 3.5;
  float dot_ = 1.0 - smoothstep(1.2, 1.9, length(cell));
  return limit > 2.5 ? dot_ : stroke;
}

vec3 reachColour(float share, float limit) {
  vec3 colour = colourBy < 0.5
    ? texture2D(table, vec2((share * ${(TABLE_SIZE - 1).toFixed(1)} + 0.5) / ${TABLE_SIZE.toFixed(1)}, 0.5)).rgb
    : inks[${FIRST_LIMIT_INK} + int(limit + 0.5)];
  return mix(colour, inks[${INK.faint}], stale);
}
`;

/** The shell: a wash of colour that thickens toward the silhouette, with height lines, so that what is inside stays readable. */
export function shellMaterial(uniforms: ReachUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      attribute float share;
      attribute float limit;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying float height;
      varying float shareHere;
      flat varying float limitHere;
      void main() {
        vec4 view = modelViewMatrix * vec4(position, 1.0);
        viewNormal = normalMatrix * normal;
        toEye = projectionMatrix[2][3] < -0.5 ? -view.xyz : vec3(0.0, 0.0, 1.0);
        height = position.z;
        shareHere = share;
        limitHere = limit;
        gl_Position = projectionMatrix * view;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      ${COLOUR_GLSL}
      uniform float contourStep;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying float height;
      varying float shareHere;
      flat varying float limitHere;
      void main() {
        float facing = abs(dot(normalize(viewNormal), normalize(toEye)));
        float edge = (1.0 - facing) * (1.0 - facing) * sqrt(1.0 - facing);
        float steps = height / contourStep;
        float width = fwidth(steps);
        float line = 1.0 - smoothstep(0.6 * pixelRatio, 1.3 * pixelRatio, abs(fract(steps + 0.5) - 0.5) / max(width, 1e-6));
        line *= 1.0 - smoothstep(0.12, 0.4, width);
        // dark colours on the dark sheet need the light ink more
        float toInk = dot(inks[${INK.paper}], vec3(0.33)) < 0.4 ? 0.65 : 0.35;
        float far = gl_FrontFacing ? 1.0 : 0.45;
        vec3 colour = reachColour(shareHere, limitHere);
        float alpha = (0.2 + 0.5 * edge) * far;
        alpha += line * 0.34 * far;
        if (colourBy > 0.5) alpha += 0.4 * hatch(limitHere, gl_FragCoord.xy) * far;
        gl_FragColor = vec4(mix(colour, inks[${INK.line}], toInk * max(edge, line)), min(alpha, 0.85) * (1.0 - 0.35 * stale));
      }
    `,
  });
}

/** The pinned design's shell: only the breath of an outline. */
export function ghostShellMaterial(uniforms: FrameUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      varying vec3 viewNormal;
      varying vec3 toEye;
      void main() {
        vec4 view = modelViewMatrix * vec4(position, 1.0);
        viewNormal = normalMatrix * normal;
        toEye = projectionMatrix[2][3] < -0.5 ? -view.xyz : vec3(0.0, 0.0, 1.0);
        gl_Position = projectionMatrix * view;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      varying vec3 viewNormal;
      varying vec3 toEye;
      void main() {
        float facing = abs(dot(normalize(viewNormal), normalize(toEye)));
        float edge = pow(1.0 - facing, 4.0);
        gl_FragColor = vec4(inks[${INK.soft}], 0.55 * edge);
      }
    `,
  });
}

/** The cloud: small discs of one size on screen. */
export function cloudMaterial(uniforms: ReachUniforms): ShaderMaterial {
  return new ShaderMaterial({
    uniforms,
    transparent: true,
    depthWrite: false,
    vertexShader: /* glsl */ `
      ${FRAME_GLSL}
      ${COLOUR_GLSL}
      attribute float share;
      attribute float limit;
      varying vec3 colour;
      flat varying float limitHere;
      void main() {
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
        gl_PointSize = (colourBy < 0.5 ? 3.0 : 4.5) * pixelRatio;
        colour = reachColour(share, limit);
        limitHere = limit;
      }
    `,
    fragmentShader: /* glsl */ `
      uniform float colourBy;
      uniform float stale;
      varying vec3 colour;
      flat varying float limitHere;
      void main() {
        vec2 p = 2.0 * gl_PointCoord - 1.0;
        // by limit: triangles up and down, squares, discs, as in the legend
        bool inside = dot(p, p) < 1.0;
        if (colourBy > 0.5) {
          if (limitHere < 0.5) inside = abs(p.x) < 0.5 * (1.0 + p.y) + 0.1;
          else if (limitHere < 1.5) inside = abs(p.x) < 0.5 * (1.0 - p.y) + 0.1;
          else if (limitHere < 2.5) inside = max(abs(p.x), abs(p.y)) < 0.8;
        }
        if (!inside) discard;
        gl_FragColor = vec4(colour, 0.6 - 0.3 * stale);
      }
    `,
  });
}
