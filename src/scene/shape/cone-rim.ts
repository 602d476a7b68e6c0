import { cross, scale, unit, type Vec3 } from '../../math/vec3.ts';

/** Corners of a joint cone's rim. */
export const RIM_CORNERS = 32;

/** Half angles above this are drawn as it: the last sliver of a full ball has no rim to see [rad]. */
const WIDEST = (175 * Math.PI) / 180;

/** Two unit vectors square to a unit axis and to each other, right-handed with it: axis = first x second. */
export function squareAxes(axis: Vec3): readonly [Vec3, Vec3] {
  const [x, y, z] = axis;
  // the coordinate axis that lies least along it, so that the product is never short
  const helper: Vec3 =
    Math.abs(z) <= Math.abs(x) && Math.abs(z) <= Math.abs(y)
      ? [0, 0, 1]
      : Math.abs(y) <= Math.abs(x)
        ? [0, 1, 0]
        : [1, 0, 0];
  const first = unit(cross(helper, axis));
  return [first, cross(axis, first)];
}

/**
 * Writes the rim of a cone, {@link RIM_CORNERS} points at `slant` from the apex and `halfAngle` from the axis.
 * @param rim flat 3 * RIM_CORNERS numbers from `offset` on are written [mm]
 */
export function writeConeRim(
  apex: Vec3,
  axis: Vec3,
  halfAngle: number,
  slant: number,
  rim: Float64Array | Float32Array,
  offset: number,
): void {
  const angle = Math.min(halfAngle, WIDEST);
  const [first, second] = squareAxes(axis);
  const along = scale(axis, slant * Math.cos(angle));
  const across = slant * Math.sin(angle);
  for (let i = 0; i < RIM_CORNERS; i++) {
    const turn = (2 * Math.PI * i) / RIM_CORNERS;
    const c = across * Math.cos(turn);
    const s = across * Math.sin(turn);
    for (let k = 0; k < 3; k++) rim[offset + 3 * i + k] = apex[k] + along[k] + c * first[k] + s * second[k];
  }
}
