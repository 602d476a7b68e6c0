import type { PlateBody } from '../../kinematics/keep-out.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Point } from '../joint-mounts.ts';
import { type BuildParts, jointFace } from '../parts.ts';
import { distance, drilledPlate, rimDistance } from '../plate-holes.ts';

/** A plate as a solid in its own frame: the opening is the first of its holes. */
export interface PlateShape {
  readonly outline: PlateBody['outline'];
  readonly bottom: number;
  readonly top: number;
  readonly holes: readonly { readonly centre: Point; readonly radius: number }[];
}

/** The plate as it is drilled; null when holes run into each other or over an edge, since no solid has such faces. */
export function plateShape(parts: BuildParts, side: PlateName): PlateShape | null {
  const { outline, thickness, opening } = parts.plates[side];
  const face = jointFace(parts, side);
  const holes = [
    ...(opening > 0 ? [{ centre: [0, 0] as const, radius: opening }] : []),
    ...drilledPlate(parts, side).holes,
  ];
  const apart = holes.every(
    (one, n) =>
      rimDistance(outline, one.centre) > one.radius &&
      holes.slice(n + 1).every((other) => distance(one.centre, other.centre) > one.radius + other.radius),
  );
  if (!apart) return null;
  return {
    outline,
    bottom: side === 'base' ? face - thickness : face,
    top: side === 'base' ? face : face + thickness,
    holes,
  };
}
