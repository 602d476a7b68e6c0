import { LEG_COUNT } from '../../kinematics/layout.ts';
import { BASE, type Constraints, isActive, JOINT_COUNT, LONG, SHORT } from './constraints.ts';

/** Axis-parallel box [mm], written as low x, y, z and high x, y, z. */
export type Box = Float64Array;

export const newBox = (): Box => new Float64Array(6);

/**
 * A box that surely holds the whole reach, from each cone of each leg alone; false when two of these boxes already exclude
 * each other.
 *
 * Along a unit direction d, a leg of length l that keeps within `limit` of a unit axis a reaches at most l cos(g),
 * g = max(0, angle(a, d) - limit); the longest leg counts where the cosine is positive, the shortest where it is negative.
 * Cones of which only one has to be kept bound nothing here. Without length limits in force the box may be infinite.
 */
export function writeBoundingBox(constraints: Constraints, box: Box): boolean {
  const { apexes, axes, cosines, sines, firstCones, either } = constraints;
  box.fill(Number.NEGATIVE_INFINITY, 0, 3);
  box.fill(Number.POSITIVE_INFINITY, 3, 6);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const max = isActive(constraints, LONG + leg) ? constraints.max : Number.POSITIVE_INFINITY;
    const min = isActive(constraints, SHORT + leg) ? constraints.min : 0;
    for (let axis = 0; axis < 3; axis++) {
      const centre = apexes[3 * leg + axis];
      box[3 + axis] = Math.min(box[3 + axis], centre + max);
      box[axis] = Math.max(box[axis], centre - max);
      for (let joint = leg; joint < JOINT_COUNT; joint += LEG_COUNT) {
        if (!isActive(constraints, BASE + joint)) continue;
        for (let cone = firstCones[joint]; cone < firstCones[joint + 1]; cone++) {
          if (either[cone] === 1) {
            cone++;
            continue;
          }
          const along = axes[3 * cone + axis];
          const up = farthest(along, cosines[cone], sines[cone]);
          const down = farthest(-along, cosines[cone], sines[cone]);
          box[3 + axis] = Math.min(box[3 + axis], centre + (up > 0 ? max : min) * up);
          box[axis] = Math.max(box[axis], centre - (down > 0 ? max : min) * down);
        }
      }
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
