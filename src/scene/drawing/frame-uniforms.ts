import { type IUniform, Vector2 } from 'three';
import { INK_COUNT, type Palette } from '../colour/inks.ts';

/** What every material of the drawing shares: the inks, the picture's size in device pixels, and device pixels per CSS pixel. */
export interface FrameUniforms {
  readonly [name: string]: IUniform;
  readonly inks: { value: Palette };
  readonly resolution: { value: Vector2 };
  readonly pixelRatio: { value: number };
}

export const newFrameUniforms = (): FrameUniforms => ({
  inks: { value: new Float32Array(3 * INK_COUNT) },
  resolution: { value: new Vector2(1, 1) },
  pixelRatio: { value: 1 },
});

/** GLSL that declares them. */
export const FRAME_GLSL = /* glsl */ `
uniform vec3 inks[${INK_COUNT}];
uniform vec2 resolution;
uniform float pixelRatio;
`;

/**
 * GLSL that lifts a point in view space toward the eye by a small share of its distance without moving it on screen, so
 * that a line on a surface is not half hidden by it. In a parallel view it is moved straight toward the eye.
 */
export const LIFT_GLSL = /* glsl */ `
vec4 lifted(vec4 viewPoint, float share) {
  if (projectionMatrix[2][3] < -0.5) return vec4(viewPoint.xyz * (1.0 - share), 1.0);
  return vec4(viewPoint.xy, viewPoint.z + share * 2.0 / projectionMatrix[1][1], 1.0);
}
`;
