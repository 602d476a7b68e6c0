import type { DesignDocument, JointDocument, PlateDocument } from '../../src/document/design.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { designLike, steady } from './build-cases.ts';

/** A design drawn at random: rings with and without holes, free points, all kinds of mounts. */
export function randomDesign(seed: number): DesignDocument {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => uniform(random, low, high);
  const ring = (radius_mm: number): PlateDocument => ({
    ring: {
      radius_mm,
      gap_deg: between(8, 50),
      turn_deg: between(-20, 20),
      jointHeight_mm: between(12, 25),
      ...(seed % 2 === 0 ? { holes: { count: 24 + 12 * (seed % 5), start_deg: between(0, 10) } } : {}),
    },
  });
  const points = (radius: number, first: number): PlateDocument => {
    const point = (leg: number): [number, number, number] => {
      const angle = first + (leg * Math.PI) / 3 + between(-0.3, 0.3);
      return [radius * Math.cos(angle), radius * Math.sin(angle), between(-3, 3)];
    };
    return { points_mm: [point(0), point(1), point(2), point(3), point(4), point(5)] };
  };
  const towards = (): JointDocument['mount'] => {
    const azimuth = () => between(-180, 180);
    return {
      lean_deg: between(2, 25),
      toward_deg: [azimuth(), azimuth(), azimuth(), azimuth(), azimuth(), azimuth()],
    };
  };
  const mount = (['square', 'aimed', towards()] as const)[seed % 3];
  const radius = between(60, 160);
  const share = between(0.5, 0.9);
  const free = seed % 4 === 3;
  const design = steady();
  return designLike(design, {
    name: `Random ${seed}`,
    base: free ? points(radius, 0.1) : ring(radius),
    platform: free ? points(share * radius, -0.4) : ring(share * radius),
    joints: { base: { ...design.joints.base, mount }, platform: { ...design.joints.platform, mount } },
    home: {
      position_mm: [between(-10, 10), between(-10, 10), between(130, 180)],
      roll_deg: between(-5, 5),
      pitch_deg: between(-5, 5),
      yaw_deg: between(-10, 10),
    },
  });
}
