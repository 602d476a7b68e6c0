import type { RingSpec } from '../kinematics/dimensions.ts';
import type { HoleCircle, Ring } from '../kinematics/layout.ts';

/**
 * A three-fold symmetric choice of holes on the two joint circles. Gaps and turns are exact angles of holes [rad]; every joint
 * sits in a hole of its own.
 */
export interface HoleChoice {
  readonly baseGap: number;
  readonly platformGap: number;
  readonly baseTurn: number;
  readonly platformTurn: number;
}

const FULL_TURN = 2 * Math.PI;
const THIRD_TURN = FULL_TURN / 3;

/** Angles closer than this share of a hole pitch are the same; rounding only. */
const SAME_HOLE = 1e-6;

/**
 * Every choice on the two circles that repeats three times around, each once: choices that differ by a turn of the whole
 * platform or by a mirror are the same layout, and so are two whose gaps add up to 120 deg on either plate, which name the pairs
 * by their other neighbours ({@link isFirstTwin}). Empty unless both hole counts are multiples of three.
 *
 * The platform's turn against the base decides; of the turns that are mirror images the one not below zero is kept. Base and
 * platform gaps run over every whole number of hole pitches between nothing and a third of a turn.
 */
export function threefoldChoices(base: HoleCircle, platform: HoleCircle): readonly HoleChoice[] {
  if (base.count % 3 !== 0 || platform.count % 3 !== 0) return [];
  const choices: HoleChoice[] = [];
  for (let baseHoles = 1; baseHoles < base.count / 3; baseHoles++) {
    for (let platformHoles = 1; platformHoles < platform.count / 3; platformHoles++) {
      if (!isFirstTwin(base, baseHoles, platform, platformHoles)) continue;
      choices.push(...turnsOf(base, baseHoles, platform, platformHoles));
    }
  }
  return choices;
}

/** How many {@link threefoldChoices} there are, counted without making them. */
export function countThreefoldChoices(base: HoleCircle, platform: HoleCircle): number {
  if (base.count % 3 !== 0 || platform.count % 3 !== 0) return 0;
  // the turns depend on the gaps only by whether they are odd numbers of pitches
  const turns = [2, 1].map((baseHoles) =>
    [2, 1].map((platformHoles) => turnsOf(base, baseHoles, platform, platformHoles).length),
  );
  let count = 0;
  for (let baseHoles = 1; baseHoles < base.count / 3; baseHoles++) {
    for (let platformHoles = 1; platformHoles < platform.count / 3; platformHoles++) {
      if (isFirstTwin(base, baseHoles, platform, platformHoles)) count += turns[baseHoles % 2][platformHoles % 2];
    }
  }
  return count;
}

/**
 * Of the two names of one layout the one with the smaller gaps. A pair with gap g at 0 deg and its neighbour at 120 deg are as well
 * two halves of a pair with gap 120 deg - g at 60 deg; naming both plates' pairs so, and the legs one further, gives the same
 * six legs with the same turn.
 */
function isFirstTwin(base: HoleCircle, baseHoles: number, platform: HoleCircle, platformHoles: number): boolean {
  // shares of a third of a turn, over a common denominator
  const baseShare = baseHoles * platform.count;
  const platformShare = platformHoles * base.count;
  const sum = baseShare + platformShare;
  const whole = (base.count * platform.count) / 3;
  return sum < whole || (sum === whole && baseShare <= platformShare);
}

/** All distinct turns of the platform pattern against the base pattern for one pair of gaps. */
function turnsOf(base: HoleCircle, baseHoles: number, platform: HoleCircle, platformHoles: number): HoleChoice[] {
  const basePitch = FULL_TURN / base.count;
  const platformPitch = FULL_TURN / platform.count;
  const finest = FULL_TURN / leastCommonMultiple(base.count, platform.count);
  const found = new Map<number, HoleChoice>();
  for (let baseStart = 0; baseStart < base.count / 3; baseStart++) {
    const baseTurn = middleTurn(base.start + (baseStart + baseHoles / 2) * basePitch, 0);
    for (let platformStart = 0; platformStart < platform.count / 3; platformStart++) {
      const middle = platform.start + (platformStart + platformHoles / 2) * platformPitch;
      const platformTurn = middleTurn(middle, Math.PI / 3);
      const between = middleTurn(platformTurn - baseTurn, 0);
      // half a third of a turn either way is its own mirror image
      const key = Math.round(Math.abs(between) / (finest * SAME_HOLE));
      const choice = {
        baseGap: baseHoles * basePitch,
        platformGap: platformHoles * platformPitch,
        baseTurn,
        platformTurn: baseTurn + between,
      };
      const known = found.get(key);
      if (!known || preferred(choice, known)) found.set(key, choice);
    }
  }
  return [...found.values()].sort((a, b) => a.platformTurn - a.baseTurn - (b.platformTurn - b.baseTurn));
}

/** Of twins the one with a turn not below zero, and with the base turned least. */
function preferred(one: HoleChoice, other: HoleChoice): boolean {
  const side = (choice: HoleChoice) => (choice.platformTurn - choice.baseTurn >= -SAME_HOLE ? 1 : 0);
  if (side(one) !== side(other)) return side(one) > side(other);
  const off = Math.abs(one.baseTurn) - Math.abs(other.baseTurn);
  return Math.abs(off) > SAME_HOLE ? off < 0 : one.baseTurn > other.baseTurn + SAME_HOLE;
}

/** An angle less a reference, folded to within a sixth of a turn: patterns repeat every third. */
function middleTurn(angle: number, reference: number): number {
  const folded = angle - reference - THIRD_TURN * Math.round((angle - reference) / THIRD_TURN);
  return Math.abs(folded + THIRD_TURN / 2) < SAME_HOLE ? folded + THIRD_TURN : folded;
}

function leastCommonMultiple(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return (a / x) * b;
}

/** The design with its joints in the chosen holes. */
export function withHoleChoice(spec: RingSpec, choice: HoleChoice): RingSpec {
  const ring = (own: Ring, gap: number, turn: number): Ring => ({ ...own, gap, turn });
  return {
    ...spec,
    base: { kind: 'ring', ring: ring(spec.base.ring, choice.baseGap, choice.baseTurn) },
    platform: { kind: 'ring', ring: ring(spec.platform.ring, choice.platformGap, choice.platformTurn) },
  };
}
