import { jointAngles, LEG_COUNT, type PlateName, type Ring } from '../../kinematics/layout.ts';
import { degrees, radians } from '../../terms/units.ts';
import type { RingDocument } from '../design.ts';

/** A ring with its angles in radians, as kinematics takes it. */
export const ringFromDocument = (ring: RingDocument): Ring => ({
  radius: ring.radius_mm,
  gap: radians(ring.gap_deg),
  turn: radians(ring.turn_deg),
  jointHeight: ring.jointHeight_mm,
  ...(ring.holes ? { holes: { count: ring.holes.count, start: radians(ring.holes.start_deg) } } : {}),
});

/** Where the joints of a ring really are. */
export interface BuiltRing {
  /** Angle between the joints of the first pair as built [deg]. */
  readonly gap_deg: number;
  /** Hole number of each joint, six: the hole at the start angle is 1, counted counter-clockwise seen from above; null without holes. */
  readonly holes: readonly number[] | null;
  /** Largest distance in angle between a joint and where the gap and turn ask for it [deg]. */
  readonly snap_deg: number;
}

/** Legs whose joints make up the three pairs of a plate, each pair counter-clockwise. */
export const PAIRS: Readonly<Record<PlateName, readonly (readonly [number, number])[]>> = {
  base: [
    [1, 2],
    [3, 4],
    [5, 6],
  ],
  platform: [
    [2, 3],
    [4, 5],
    [6, 1],
  ],
};

/** Reads off what the hole circle makes of a ring. */
export function builtRing(document: RingDocument, plate: PlateName): BuiltRing {
  const ring = ringFromDocument(document);
  const built = jointAngles(ring, plate);
  const { holes, ...free } = ring;
  const asked = jointAngles(free, plate);
  const [first, second] = PAIRS[plate][0];
  let snap = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) snap = Math.max(snap, Math.abs(built[leg] - asked[leg]));
  return {
    gap_deg: degrees(built[second - 1] - built[first - 1]),
    holes: holes ? Array.from(built, (angle) => holeNumber(angle, holes.count, holes.start)) : null,
    snap_deg: degrees(snap),
  };
}

function holeNumber(angle: number, count: number, start: number): number {
  const index = Math.round(((angle - start) * count) / (2 * Math.PI));
  return (((index % count) + count) % count) + 1;
}
