import { add, scale, subtract, unit, type Vec3 } from '../../math/vec3.ts';
import type { StandardView } from '../../state/session/session-store.ts';
import type { Framing } from '../shape/view-fit.ts';

/** From straight above the controls cannot tell where up is; this much to the front keeps +Y up [rad]. */
const JUST_OFF_TOP = 1e-4;

/** Unit directions from what is looked at to the eye. Front is seen from -Y, right from +X. */
export const STANDARD_DIRECTIONS: Readonly<Record<StandardView, Vec3>> = {
  isometric: unit([1, -1, 1]),
  top: [0, -Math.sin(JUST_OFF_TOP), Math.cos(JUST_OFF_TOP)],
  front: [0, -1, 0],
  right: [1, 0, 0],
};

/** A framing on the way from one to another: eased, turning about the target at even speed. `share` 0 to 1. */
export function betweenFramings(from: Framing, to: Framing, share: number): Framing {
  if (share >= 1) return to;
  const eased = share * share * (3 - 2 * share);
  return {
    target: add(from.target, scale(subtract(to.target, from.target), eased)),
    toCamera: betweenDirections(from.toCamera, to.toCamera, eased),
    distance: from.distance * (to.distance / from.distance) ** eased,
  };
}

/** By azimuth and height rather than along the great circle, so that the horizon stays level. */
function betweenDirections(from: Vec3, to: Vec3, share: number): Vec3 {
  const start = spherical(from);
  const stop = spherical(to);
  const turn = stop.azimuth - start.azimuth;
  const azimuth = start.azimuth + share * (turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI)));
  const height = start.height + share * (stop.height - start.height);
  return [Math.cos(height) * Math.cos(azimuth), Math.cos(height) * Math.sin(azimuth), Math.sin(height)];
}

function spherical(direction: Vec3): { readonly azimuth: number; readonly height: number } {
  const [x, y, z] = direction;
  return { azimuth: Math.atan2(y, x), height: Math.atan2(z, Math.hypot(x, y)) };
}
