import {
  type DataTexture,
  type DepthModes,
  DoubleSide,
  GreaterDepth,
  LessEqualDepth,
  ShaderMaterial,
  Vector2,
} from 'three';
import { INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';
import { COLOUR_BY, COLOUR_GLSL } from './reach-material.ts';

/** Uniforms of the section. */
export interface CutUniforms extends FrameUniforms {
  readonly table: { value: DataTexture };
  /** Four numbers a node: place on the map or limit, room, slack, sign. */
  readonly cells: { value: DataTexture };
  /** Nodes along both sides. */
  readonly nodes: { value: Vector2 };
  readonly colourBy: { value: number };
  readonly stale: { value: number };
  /** Share of the map from one contour line to the next. */
  readonly contour: { value: number };
}

export const newCutUniforms = (frame: FrameUniforms, table: DataTexture, cells: DataTexture): CutUniforms => ({
  ...frame,
  table: { value: table },
  cells: { value: cells },
  nodes: { value: new Vector2(1, 1) },
  colourBy: { value: COLOUR_BY.scale },
  stale: { value: 0 },
  contour: { value: 0.1 },
});

/** How much of the section shows through the parts of the platform that stand before it: they stay readable over it. */
const THROUGH = 0.88;

/**
 * The section twice: where nothing stands before it, and, paler, through whatever does; the platform usually stands in the middle of
 * its reach and would hide the better part.
 */
export const cutMaterials = (uniforms: CutUniforms): readonly [ShaderMaterial, ShaderMaterial] => [
  cutMaterial(uniforms, 1, LessEqualDepth),
  cutMaterial(uniforms, THROUGH, GreaterDepth),
];

/** The section: full colour up to a smooth outline, thin contour lines, strokes where a floor is missed, a heavy line of zero force. */
function cutMaterial(uniforms: CutUniforms, strength: number, depthFunc: DepthModes): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ...uniforms, strength: { value: strength } },
    transparent: true,
    depthFunc,
    depthWrite: depthFunc === LessEqualDepth,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      attribute vec2 corner;
      varying vec2 at;
      void main() {
        at = corner;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      ${COLOUR_GLSL}
      uniform highp sampler2D cells;
      uniform vec2 nodes;
      uniform float contour;
      uniform float strength;
      varying vec2 at;

      /** Distance of a value from zero in CSS pixels. */
      float pixels(float value) {
        return abs(value) / max(fwidth(value), 1e-9) / pixelRatio;
      }

      void main() {
        vec2 place = at * (nodes - 1.0);
        vec2 low = clamp(floor(place), vec2(0.0), nodes - 2.0);
        vec2 t = place - low;
        ivec2 cell = ivec2(low);
        vec4 a = texelFetch(cells, cell, 0);
        vec4 b = texelFetch(cells, cell + ivec2(1, 0), 0);
        vec4 c = texelFetch(cells, cell + ivec2(0, 1), 0);
        vec4 d = texelFetch(cells, cell + ivec2(1, 1), 0);
        vec4 here = mix(mix(a, b, t.x), mix(c, d, t.x), t.y);
        vec4 nearest = texelFetch(cells, ivec2(low + step(0.5, t)), 0);
        float share = here.x;
        float none = min(min(a.x, b.x), min(c.x, d.x)) < -0.5 ? 1.0 : 0.0;

        float outside = here.y / max(fwidth(here.y), 1e-9) / pixelRatio;
        float line = 1.0 - smoothstep(0.9, 1.8, abs(outside - 0.8));
        float steps = share / contour;
        float width = fwidth(steps);
        float level = (1.0 - smoothstep(0.35, 0.95, abs(fract(steps + 0.5) - 0.5) / max(width, 1e-6) / pixelRatio))
          * (1.0 - smoothstep(0.15, 0.45, width)) * (1.0 - none) * step(0.003, share) * step(share, 0.997);
        float missed = (1.0 - smoothstep(-0.5, 0.5, here.z / max(fwidth(here.z), 1e-9) / pixelRatio)) * (1.0 - stale);
        float border = (1.0 - smoothstep(0.5, 1.2, pixels(here.z))) * (1.0 - stale);
        float zero = 1.0 - smoothstep(1.4, 2.2, pixels(here.w));
        if (outside < -0.6) discard;

        vec3 colour;
        if (colourBy > 0.5) {
          vec3 ink = reachColour(0.0, nearest.x);
          colour = mix(mix(inks[${INK.paper}], ink, 0.45), ink, 0.7 * hatch(nearest.x, gl_FragCoord.xy));
          level = 0.0;
        } else {
          colour = reachColour(share, 0.0);
        }
        // light lines on dark colours, dark ones on light colours
        float bright = dot(colour, vec3(0.3, 0.6, 0.1));
        vec3 contrast = bright < 0.45 ? vec3(1.0) : vec3(0.0);
        colour = mix(colour, contrast, 0.38 * level * (1.0 - missed));
        colour = markedColour(colour, missed, none, gl_FragCoord.xy);
        colour = mix(colour, inks[${INK.line}], 0.8 * border);
        colour = mix(colour, inks[${INK.warn}], zero * (1.0 - none));
        colour = mix(colour, inks[${INK.line}], line);
        gl_FragColor = vec4(colour, smoothstep(-0.6, 0.4, outside) * (1.0 - 0.5 * stale) * strength);
      }
    `,
  });
}
