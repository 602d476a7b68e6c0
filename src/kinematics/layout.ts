/** The six legs, counter-clockwise seen from +Z; index 0 is leg 1. */
export const LEG_COUNT = 6;

/** Which plate a joint sits on. */
export type PlateName = 'base' | 'platform';

/** Equally spaced mounting holes on a ring's joint circle. */
export interface HoleCircle {
  /** Number of holes on the full circle, a whole number of at least 3. */
  readonly count: number;
  /** Angle of one hole [rad]. */
  readonly start: number;
}

/** Three joint pairs on a circle in the plate's joint plane. */
export interface Ring {
  /** Radius of the joint circle [mm]. */
  readonly radius: number;
  /** Angle between the two joints of a pair [rad, 0 to 2 pi/3]. */
  readonly gap: number;
  /** Turn of the whole pattern about +Z [rad]. */
  readonly turn: number;
  /** Distance from the plate's face to the joint centres [mm]; moves the drawn plate, not the joints. */
  readonly jointHeight: number;
  readonly holes?: HoleCircle;
}

/** Joint centres, flat 18 numbers each [mm]: p_BoAi_B of the base, p_PoBi_P of the platform. */
export interface JointCentres {
  readonly base: Float64Array;
  readonly platform: Float64Array;
}

const THIRD_TURN = (2 * Math.PI) / 3;

/** Pair middles [rad] at zero turn: base 0, 120, 240 deg, platform 60, 180, 300 deg. */
const FIRST_PAIR: Readonly<Record<PlateName, number>> = {
  base: 0,
  platform: Math.PI / 3,
};

/**
 * Joint angles of the six legs before any hole is considered [rad], index 0 = leg 1.
 *
 * Base: leg 1 at -gap/2, leg 2 at +gap/2, and so on by pairs. Platform: every leg takes the nearest joint of the
 * neighbouring pair, so leg 1 shares the pair at 300 deg with leg 6 and starts at -60 deg + gap/2.
 */
export const idealJointAngles = (ring: Ring, plate: PlateName): Float64Array =>
  Float64Array.from({ length: LEG_COUNT }, (_, leg) => idealJointAngle(ring, plate, leg));

function idealJointAngle({ gap, turn }: Ring, plate: PlateName, leg: number): number {
  const half = leg % 2 === 0 ? gap / 2 : -gap / 2;
  if (plate === 'base') return FIRST_PAIR.base + Math.floor(leg / 2) * THIRD_TURN - half + turn;
  return FIRST_PAIR.platform + (Math.floor((leg + 1) / 2) - 1) * THIRD_TURN + half + turn;
}

/** Angle of the hole nearest to `angle` [rad]; halfway between two holes the one counter-clockwise is taken. */
export function nearestHole(angle: number, holes: HoleCircle): number {
  const step = (2 * Math.PI) / holes.count;
  return holes.start + Math.floor((angle - holes.start) / step + 0.5 + HALFWAY_SLACK) * step;
}

/**
 * Angles typed as exact halves of the hole pitch arrive a few rounding errors off; without this slack the six joints
 * would round both ways and break the three-fold symmetry. In hole pitches; far below any drilling tolerance.
 */
const HALFWAY_SLACK = 1e-9;

/** Joint angles as built [rad]: the ideal ones, or the nearest holes where the ring has holes. */
export const jointAngles = (ring: Ring, plate: PlateName): Float64Array =>
  Float64Array.from({ length: LEG_COUNT }, (_, leg) => jointAngle(ring, plate, leg));

function jointAngle(ring: Ring, plate: PlateName, leg: number): number {
  const angle = idealJointAngle(ring, plate, leg);
  return ring.holes ? nearestHole(angle, ring.holes) : angle;
}

/**
 * Joint centres of a ring, flat 18 [mm], in the plate's own frame; all in its joint plane z = 0.
 * @param points where to write them; left out: a new array
 */
export function ringJoints(
  ring: Ring,
  plate: PlateName,
  points: Float64Array = new Float64Array(3 * LEG_COUNT),
): Float64Array {
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const angle = jointAngle(ring, plate, leg);
    points[3 * leg] = ring.radius * Math.cos(angle);
    points[3 * leg + 1] = ring.radius * Math.sin(angle);
    points[3 * leg + 2] = 0;
  }
  return points;
}

/** Distances of a plate's six joints from their centroid [mm]. */
export interface PlateExtent {
  readonly mean: number;
  readonly largest: number;
}

/** How far the joints of a plate are from their centroid; a ring gives its radius. */
export function extentOf(points: Float64Array): PlateExtent {
  let cx = 0;
  let cy = 0;
  let cz = 0;
  for (let i = 0; i < 18; i += 3) {
    cx += points[i] / LEG_COUNT;
    cy += points[i + 1] / LEG_COUNT;
    cz += points[i + 2] / LEG_COUNT;
  }
  let sum = 0;
  let largest = 0;
  for (let i = 0; i < 18; i += 3) {
    const distance = Math.sqrt((points[i] - cx) ** 2 + (points[i + 1] - cy) ** 2 + (points[i + 2] - cz) ** 2);
    sum += distance;
    if (distance > largest) largest = distance;
  }
  return { mean: sum / LEG_COUNT, largest };
}

/** Centroid-to-joint distance, averaged over the six joints of a plate [mm]; a ring gives its radius. */
export const meanJointRadius = (points: Float64Array): number => extentOf(points).mean;
