import type { RingSpec } from '../../src/kinematics/dimensions.ts';
import type { Mount, PlateLayout } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { type Random, uniform } from '../../src/math/random.ts';
import { type Mat3, multiply3, rotationAbout } from '../../src/math/rotation.ts';
import { DEG } from '../kinematics/designs.ts';

type RingPlate = Extract<PlateLayout, { readonly kind: 'ring' }>;

export const ringPlate = (radius: number, gap_deg: number, turn_deg = 0): RingPlate => ({
  kind: 'ring',
  ring: { radius, gap: gap_deg * DEG, turn: turn_deg * DEG, jointHeight: 0 },
});

/** The wave-table-sized design that the sweeps here start from: legs 120 to 200 mm, joints 25 deg, aimed mounts. */
export const tableSpec = (more: Partial<RingSpec> = {}): RingSpec => ({
  base: ringPlate(100, 20),
  platform: ringPlate(70, 20),
  legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
  joints: {
    base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
    platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  },
  tool: [0, 0, 0],
  home: poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 }),
  ...more,
});

/** A random two-ring design with square, aimed or leaning mounts. */
export function randomRingSpec(random: Random): RingSpec {
  const kind = Math.floor(3 * random());
  const mount: Mount =
    kind === 0
      ? { kind: 'square' }
      : kind === 1
        ? { kind: 'aimed' }
        : {
            kind: 'leaning',
            lean: uniform(random, 0, 20) * DEG,
            toward: Float64Array.of(0, 0, 120, 120, 240, 240).map((azimuth) => azimuth * DEG),
          };
  const joint = () => ({ tiltLimit: uniform(random, 15, 45) * DEG, mount });
  return tableSpec({
    base: ringPlate(100, uniform(random, 0, 115)),
    platform: ringPlate(
      uniform(random, 30, 110),
      uniform(random, 0, 115),
      random() < 0.3 ? uniform(random, -20, 20) : 0,
    ),
    joints: { base: joint(), platform: joint() },
    home: poseFromAngles({ position: [0, 0, uniform(random, 110, 180)], roll: 0, pitch: 0, yaw: 0 }),
  });
}

/** An orientation and its tilts toward so many even directions. */
export const tiltsAbout = (R: Mat3, tilt: number, directions: number): readonly Mat3[] => [
  R,
  ...Array.from({ length: directions }, (_, n) => {
    const toward = (n * 2 * Math.PI) / directions;
    return multiply3(rotationAbout([-Math.sin(toward), Math.cos(toward), 0], tilt), R);
  }),
];
