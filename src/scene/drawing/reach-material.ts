import { DataTexture, DoubleSide, LinearFilter, RGBAFormat, ShaderMaterial, UnsignedByteType, Vector4 } from 'three';
import { TABLE_SIZE } from '../../state/colour/colour-table.ts';
import { FIRST_LIMIT_INK, INK } from '../colour/inks.ts';
import { FRAME_GLSL, type FrameUniforms } from './frame-uniforms.ts';

/** What the reach is coloured by, in the shaders. */
export const COLOUR_BY = { scale: 0, limit: 1 } as const;

/** Uniforms of the reach, shared by its cloud and its shell. */
export interface ReachUniforms extends FrameUniforms {
  readonly table: { value: DataTexture };
  readonly colourBy: { value: number };
  /** 1: the picture belongs to an older design and is drawn grey. */
  readonly stale: { value: number };
  /** Distance of height lines on the shell [mm]. */
  readonly contourStep: { value: number };
  /** Unit normal along an axis and the place on it [mm] of the plane that opens the reach; all zero: whole. */
  readonly cutPlane: { value: Vector4 };
}

/** A colour map for the graphics card. */
export function tableTexture(bytes: Uint8Array<ArrayBuffer>): DataTexture {
  const table = new DataTexture(bytes, TABLE_SIZE, 1, RGBAFormat, UnsignedByteType);
  table.magFilter = LinearFilter;
  table.minFilter = LinearFilter;
  table.needsUpdate = true;
  return table;
}

export const newReachUniforms = (frame: FrameUniforms, table: DataTexture): ReachUniforms => ({
  ...frame,
  table: { value: table },
  colourBy: { value: COLOUR_BY.scale },
  stale: { value: 0 },
  contourStep: { value: 10 },
  cutPlane: { value: new Vector4() },
});

/** GLSL that tells whether a place lies on the eye's side of the plane that opens the reach. */
export const CUT_GLSL = /* glsl */ `
uniform vec4 cutPlane;
bool openedAway(vec3 place) {
  float eye = dot(cutPlane.xyz, cameraPosition) - cutPlane.w;
  float side = dot(cutPlane.xyz, place) - cutPlane.w;
  return dot(cutPlane.xyz, cutPlane.xyz) > 0.5 && side * eye > 0.0;
}
`;

/** GLSL of the colours of the reach, for its cloud, its shell and its cut. */
export const COLOUR_GLSL = /* glsl */ `
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

/** Grey strokes where a floor is missed: 1 on a stroke. */
float missedStroke(vec2 pixel) {
  vec2 p = pixel / pixelRatio;
  return 1.0 - smoothstep(0.5, 1.2, abs(mod(p.x + p.y, 7.0) - 3.5));
}

/** Dots where there is no value: 1 on a dot. */
float noneDot(vec2 pixel) {
  vec2 cell = mod(pixel / pixelRatio, 6.0) - 3.0;
  return 1.0 - smoothstep(0.9, 1.5, length(cell));
}

/** A colour as it is where a floor is missed or no value is. Shares of both, 0 to 1. */
vec3 markedColour(vec3 colour, float missed, float none, vec2 pixel) {
  vec3 grey = mix(colour, inks[${INK.faint}], 0.8);
  colour = mix(colour, mix(grey, inks[${INK.line}], 0.55 * missedStroke(pixel)), missed);
  return mix(colour, mix(inks[${INK.paper}], inks[${INK.soft}], noneDot(pixel)), none);
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
      attribute float mark;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;
      varying float shareHere;
      varying float missedHere;
      varying float noneHere;
      flat varying float limitHere;
      void main() {
        vec4 view = modelViewMatrix * vec4(position, 1.0);
        viewNormal = normalMatrix * normal;
        toEye = projectionMatrix[2][3] < -0.5 ? -view.xyz : vec3(0.0, 0.0, 1.0);
        place = position;
        shareHere = share;
        missedHere = mark > 0.5 && mark < 1.5 ? 1.0 : 0.0;
        noneHere = mark > 1.5 ? 1.0 : 0.0;
        limitHere = limit;
        gl_Position = projectionMatrix * view;
      }
    `,
    fragmentShader: /* glsl */ `
      ${FRAME_GLSL}
      ${COLOUR_GLSL}
      ${CUT_GLSL}
      uniform float contourStep;
      varying vec3 viewNormal;
      varying vec3 toEye;
      varying vec3 place;
      varying float shareHere;
      varying float missedHere;
      varying float noneHere;
      flat varying float limitHere;
      void main() {
        float facing = abs(dot(normalize(viewNormal), normalize(toEye)));
        float edge = (1.0 - facing) * (1.0 - facing) * sqrt(1.0 - facing);
        float steps = place.z / contourStep;
        float width = fwidth(steps);
        float line = 1.0 - smoothstep(0.6 * pixelRatio, 1.3 * pixelRatio, abs(fract(steps + 0.5) - 0.5) / max(width, 1e-6));
        line *= 1.0 - smoothstep(0.12, 0.4, width);
        // dark colours on the dark sheet need the light ink more
        float toInk = dot(inks[${INK.paper}], vec3(0.33)) < 0.4 ? 0.65 : 0.35;
        float far = gl_FrontFacing ? 1.0 : 0.45;
        float missed = smoothstep(0.4, 0.6, missedHere) * (1.0 - stale);
        float none = smoothstep(0.4, 0.6, noneHere) * (1.0 - stale);
        vec3 colour = markedColour(reachColour(shareHere, limitHere), missed, none, gl_FragCoord.xy);
        float alpha = (0.2 + 0.5 * edge) * far;
        alpha += line * 0.34 * far;
        if (colourBy > 0.5) alpha += 0.4 * hatch(limitHere, gl_FragCoord.xy) * (1.0 - missed) * far;
        alpha += (0.3 * missedStroke(gl_FragCoord.xy) * missed + 0.4 * noneDot(gl_FragCoord.xy) * none) * far;
        // what stands before the cut is only hinted at
        if (openedAway(place)) alpha = 0.16 * edge * far + 0.05 * line;
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
      ${CUT_GLSL}
      attribute float share;
      attribute float limit;
      attribute float mark;
      varying vec3 colour;
      flat varying float limitHere;
      flat varying float markHere;
      flat varying float hidden;
      void main() {
        markHere = stale > 0.5 ? 0.0 : mark;
        hidden = openedAway(position) ? 1.0 : 0.0;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
        gl_PointSize = (colourBy < 0.5 ? 3.0 : 4.5) * pixelRatio;
        colour = reachColour(share, limit);
        if (markHere > 0.5) colour = mix(colour, inks[${INK.faint}], 0.8);
        limitHere = limit;
      }
    `,
    fragmentShader: /* glsl */ `
      uniform float colourBy;
      uniform float stale;
      varying vec3 colour;
      flat varying float limitHere;
      flat varying float markHere;
      flat varying float hidden;
      void main() {
        if (hidden > 0.5) discard;
        vec2 p = 2.0 * gl_PointCoord - 1.0;
        // by limit: triangles up and down, squares, discs, as in the legend
        bool inside = dot(p, p) < 1.0;
        if (colourBy > 0.5) {
          if (limitHere < 0.5) inside = abs(p.x) < 0.5 * (1.0 + p.y) + 0.1;
          else if (limitHere < 1.5) inside = abs(p.x) < 0.5 * (1.0 - p.y) + 0.1;
          else if (limitHere < 2.5) inside = max(abs(p.x), abs(p.y)) < 0.8;
        }
        // a floor missed: a thin cross; no value: an open ring
        if (markHere > 1.5) inside = abs(length(p) - 0.75) < 0.25;
        else if (markHere > 0.5) inside = min(abs(p.x - p.y), abs(p.x + p.y)) < 0.35;
        if (!inside) discard;
        gl_FragColor = vec4(colour, (0.6 - 0.3 * stale) * (markHere > 0.5 ? 0.6 : 1.0));
      }
    `,
  });
}
