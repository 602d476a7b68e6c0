/** A repeatable source of numbers in [0, 1). */
export type Random = () => number;

/**
 * The one seeded generator: a 32-bit state advanced by a Weyl sequence and mixed (splitmix style).
 * Period 2^32; good enough for sampling poses and test inputs, not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x21f0aaad);
    mixed ^= mixed >>> 15;
    mixed = Math.imul(mixed, 0x735a2d97);
    mixed ^= mixed >>> 15;
    return (mixed >>> 0) / 4294967296;
  };
}

/** Uniform number in [low, high). */
export const uniform = (random: Random, low: number, high: number): number => low + (high - low) * random();

/** A unit quaternion (w, x, y, z) uniform over all rotations (K. Shoemake, Graphics Gems III, 1992: from memory). */
export function randomQuaternion(random: Random): readonly [number, number, number, number] {
  const split = random();
  const a = 2 * Math.PI * random();
  const b = 2 * Math.PI * random();
  const low = Math.sqrt(1 - split);
  const high = Math.sqrt(split);
  return [high * Math.cos(b), low * Math.sin(a), low * Math.cos(a), high * Math.sin(b)];
}
