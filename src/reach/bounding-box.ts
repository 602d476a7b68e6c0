import { LEG_COUNT } from '../kinematics/layout.ts';
import { BASE, CONE_COUNT, type Constraints, isActive, LONG, SHORT } from './constraints.ts';

/** Axis-parallel box [mm], written as low x, y, z and high x, y, z. */
export type Box = Float64Array;

export const newBox = (): Box => new Float64Array(6);

/**
 * A box that surely holds the whole reach, from each leg alone; false when two legs' boxes already exclude each other.
 *
 * Along a unit direction d, a leg of length l that keeps within `limit` of a unit axis a reaches at most l cos(g),
 * g = max(0, angle(a, d) - limit); the longest leg counts where the cosine is positive, the shortest where it is negative.
 * Without length limits in force the box may be infinite.
 */
export function writeBoundingBox(constraints: Constraints, box: Box): boolean {
  const { apexes, axes } = constraints;
  box.fill(Number.NEGATIVE_INFINITY, 0, 3);
  box.fill(Number.POSITIVE_INFINITY, 3, 6);
  for (let cone = 0; cone < CONE_COUNT; cone++) {
    const leg = cone % LEG_COUNT;
    const max = isActive(constraints, LONG + leg) ? constraints.max : Number.POSITIVE_INFINITY;
    const min = isActive(constraints, SHORT + leg) ? constraints.min : 0;
    const tilted = isActive(constraints, BASE + cone);
    const cosine = cone < LEG_COUNT ? constraints.baseCosine : constraints.platformCosine;
    const sine = cone < LEG_COUNT ? constraints.baseSine : constraints.platformSine;
    for (let axis = 0; axis < 3; axis++) {
      const along = axes[3 * cone + axis];
      const centre = apexes[3 * leg + axis];
      const up = tilted ? farthest(along, cosine, sine) : 1;
      const down = tilted ? farthest(-along, cosine, sine) : 1;
      const high = centre + (up > 0 ? max : min) * up;
      const low = centre - (down > 0 ? max : min) * down;
      if (high < box[3 + axis]) box[3 + axis] = high;
      if (low > box[axis]) box[axis] = low;
    }
  }
  return box[0] < box[3] && box[1] < box[4] && box[2] < box[5];
}

/** Cosine of max(0, angle - limit), from the cosine of the angle: cos(angle - limit), or 1 within the limit. */
function farthest(along: number, cosine: number, sine: number): number {
  if (along >= cosine) return 1;
  return along * cosine + Math.sqrt(Math.max(0, 1 - along * along)) * sine;
}

/** Largest edge of a box [mm]. */
export const largestEdge = (box: Box): number => Math.max(box[3] - box[0], box[4] - box[1], box[5] - box[2]);
