import type { Manifold } from 'manifold-3d';
import type { PlateName } from '../../kinematics/layout.ts';
import { jointMounts } from '../joint-mounts.ts';
import type { BuildParts } from '../parts.ts';
import { distance, drilledPlate } from '../plate-holes.ts';
import { type Modeller, sidesOf } from './manifold.ts';

/** Height of the jig [mm]: a drill of that diameter is led over so many diameters (common practice: one to two). */
const LED = 1.5;
const LEAST_HEIGHT = 4;

/**
 * A printable drilling jig, which lies on the plate seen from above: a hub with a hole for the plate's middle, an arm to every joint, and a boss with
 * a guiding hole over every hole that a joint needs, and over the marking hole. Null where a joint needs no hole.
 */
export function jigManifold(modeller: Modeller, parts: BuildParts, side: PlateName): Manifold | null {
  const { Manifold: M, CrossSection } = modeller;
  const { hole } = parts.choices;
  const plate = drilledPlate(parts, side);
  const feet = jointMounts(parts, side);
  const guided = plate.holes.filter(
    ({ centre, use }) =>
      use !== 'index' || feet.some(({ foot, bolts }) => [foot, ...bolts].some((at) => distance(at, centre) < SAME)),
  );
  if (guided.length === 0) return null;
  const boss = 1.5 * hole + 1.5;
  const height = Math.max(LEAST_HEIGHT, LED * hole);
  const disc = (radius: number) => CrossSection.circle(radius, sidesOf(radius));
  const pieces = [disc(2 * boss)];
  for (const { centre } of guided) {
    const [x, y] = centre;
    const reach = Math.hypot(x, y);
    const arm = CrossSection.square([reach, 1.2 * boss]).translate([0, -0.6 * boss]);
    pieces.push(arm.rotate((Math.atan2(y, x) * 180) / Math.PI));
    pieces.push(disc(boss).translate([x, y]));
  }
  const holes = [[0, 0] as const, ...guided.map(({ centre }) => centre)].map((at) => disc(hole / 2).translate([...at]));
  return M.extrude(CrossSection.union(pieces).subtract(CrossSection.union(holes)), height);
}
const SAME = 1e-6;
