import { jointAngles, LEG_COUNT, type PlateName, type Ring } from '../../kinematics/layout.ts';

/** One hole of a plate. */
export interface Hole {
  readonly x: number;
  readonly y: number;
  /** Leg whose joint sits here, 1 to 6; null for a free hole. */
  readonly leg: number | null;
}

/** The holes of a ring and how large they are drawn [mm]. */
export interface HoleLayout {
  readonly holes: readonly Hole[];
  readonly radius: number;
}

/** A drawn hole takes up this share of the pitch, and no more than this share of the circle's radius. */
const PITCH_SHARE = 0.22;
const RADIUS_SHARE = 0.028;

/** Two angles are the same hole when they differ by less than this share of the pitch: rounding only. */
const SAME_HOLE = 1e-6;

/** Every hole of the circle, counter-clockwise from the start angle; a ring without holes has the six its joints need. */
export function holeLayout(ring: Ring, plate: PlateName): HoleLayout {
  const joints = jointAngles(ring, plate);
  const place = (angle: number, leg: number | null): Hole => ({
    x: ring.radius * Math.cos(angle),
    y: ring.radius * Math.sin(angle),
    leg,
  });
  if (!ring.holes) {
    return {
      holes: Array.from(joints, (angle, index) => place(angle, index + 1)),
      radius: RADIUS_SHARE * ring.radius,
    };
  }
  const { count, start } = ring.holes;
  const pitch = (2 * Math.PI) / count;
  const legAt = new Map<number, number>();
  for (let index = LEG_COUNT - 1; index >= 0; index--) {
    const steps = (joints[index] - start) / pitch;
    const nearest = Math.round(steps);
    if (Math.abs(steps - nearest) < SAME_HOLE) legAt.set(((nearest % count) + count) % count, index + 1);
  }
  return {
    holes: Array.from({ length: count }, (_, hole) => place(start + hole * pitch, legAt.get(hole) ?? null)),
    radius: Math.min(PITCH_SHARE * pitch, RADIUS_SHARE) * ring.radius,
  };
}
