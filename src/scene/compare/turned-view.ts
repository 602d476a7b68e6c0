import { cross, dot, type Vec3 } from '../../math/vec3.ts';
import type { StandardView } from '../../state/session/session-store.ts';
import type { Point2 } from '../shape/convex-hull.ts';

/** Where the eye is: turned about Z from +X, and raised above the plane of the base [rad]. */
export interface ViewAngles {
  readonly azimuth: number;
  readonly elevation: number;
}

/** The standard views, as the view of the platform has them: front from -Y, right from +X. */
export const STANDARD_ANGLES: Readonly<Record<StandardView, ViewAngles>> = {
  isometric: { azimuth: -Math.PI / 4, elevation: Math.atan(Math.SQRT1_2) },
  top: { azimuth: -Math.PI / 2, elevation: Math.PI / 2 },
  front: { azimuth: -Math.PI / 2, elevation: 0 },
  right: { azimuth: 0, elevation: 0 },
};

/** Unit directions of a drawing in base axes; the projection is along `toEye`, without perspective. */
export interface ViewBasis {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toEye: Vec3;
}

export function viewBasis({ azimuth, elevation }: ViewAngles): ViewBasis {
  const [c, s] = [Math.cos(azimuth), Math.sin(azimuth)];
  const toEye: Vec3 = [Math.cos(elevation) * c, Math.cos(elevation) * s, Math.sin(elevation)];
  const right: Vec3 = [-s, c, 0];
  return { right, up: cross(toEye, right), toEye };
}

/** Turned by so much, never over the top. */
export const turned = ({ azimuth, elevation }: ViewAngles, about: number, upward: number): ViewAngles => ({
  azimuth: azimuth + about,
  elevation: Math.min(Math.PI / 2, Math.max(-Math.PI / 2, elevation + upward)),
});

/** Place of a point on the sheet [mm, y down]. */
export const onSheet = ({ right, up }: ViewBasis, point: Vec3): Point2 => [dot(point, right), -dot(point, up)];

/** Points, flat xyz, in the axes of the view: to the right, upward, toward the eye. */
export function inViewAxes(positions: Float64Array, { right, up, toEye }: ViewBasis): Float64Array {
  const out = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const x = positions[i];
    const y = positions[i + 1];
    const z = positions[i + 2];
    out[i] = right[0] * x + right[1] * y + right[2] * z;
    out[i + 1] = up[0] * x + up[1] * y + up[2] * z;
    out[i + 2] = toEye[0] * x + toEye[1] * y + toEye[2] * z;
  }
  return out;
}
