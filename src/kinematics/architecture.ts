import { randomQuaternion, seededRandom, uniform } from '../math/random.ts';
import { rotationAbout, rotationFromQuaternion } from '../math/rotation.ts';
import { svd } from '../math/svd.ts';
import { at, cross, length, type Vec3 } from '../math/vec3.ts';
import { type CopyKind, plateCopy } from './copies.ts';
import { jacobian, scaledJacobian } from './jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import { legStates } from './legs.ts';
import type { Mechanism } from './mechanism.ts';

/**
 * A singular value below this share of the largest one counts as zero. Exactly singular layouts come out below
 * 1e-15; a layout a millionth of a degree away from one still shows 1e-9. The bound sits between the two.
 */
export const RANK_TOLERANCE = 1e-10;

/** Seeded generic poses at which the rank is tried; one full-rank pose is proof enough of a sound layout. */
export const GENERIC_POSES = 6;

/** Seed of the generic poses. */
const GENERIC_SEED = 20260;

/** Sine between two legs below which they count as parallel; rounding leaves 1e-15. */
export const PARALLEL_SINE = 1e-9;

/** What a layout is in general, whatever its pose. */
export interface Architecture {
  /** Highest rank found over the generic poses, 0 to 6. */
  readonly genericRank: number;
  readonly singularEverywhere: boolean;
  /** How the platform's joint pattern repeats the base's, where it does. */
  readonly copy: CopyKind | null;
  /** All six legs are parallel at the home pose. */
  readonly parallelAtHome: boolean;
  /** Sum of the two pair gaps as built [rad]; null unless both plates are rings with the same turn. */
  readonly gapSum: number | null;
}

/**
 * Tests the rank of the Jacobian at several generic poses. A layout that is singular at all of them is singular at every
 * pose: the determinant is an analytic function of the pose, so a layout with one regular pose is regular almost everywhere.
 */
export function assessArchitecture(mechanism: Mechanism): Architecture {
  const genericRank = highestGenericRank(mechanism);
  return {
    genericRank,
    singularEverywhere: genericRank < LEG_COUNT,
    copy: plateCopy(mechanism.centres),
    parallelAtHome: allLegsParallel(mechanism),
    gapSum: builtGapSum(mechanism),
  };
}

/** {@link Architecture.singularEverywhere} alone, for many layouts. */
export const isSingularEverywhere = (mechanism: Mechanism): boolean => highestGenericRank(mechanism) < LEG_COUNT;

/** Number of singular values above the tolerance. */
export function rankOf(values: Float64Array): number {
  return values.filter((value) => value > RANK_TOLERANCE * values[0]).length;
}

function highestGenericRank(mechanism: Mechanism): number {
  const random = seededRandom(GENERIC_SEED);
  let highest = 0;
  for (let n = 0; n < GENERIC_POSES && highest < LEG_COUNT; n++) {
    // half of the poses stay within some 60 deg of level, where platforms live; half are anywhere
    const R_BP =
      n % 2 === 0
        ? rotationAbout([Math.SQRT1_2, Math.SQRT1_2, 0], uniform(random, 0.2, 1))
        : rotationFromQuaternion(randomQuaternion(random));
    const reach = mechanism.size;
    const p_BoTo_B: Vec3 = [
      uniform(random, -0.5, 0.5) * reach,
      uniform(random, -0.5, 0.5) * reach,
      uniform(random, 0.7, 1.7) * reach,
    ];
    const J = scaledJacobian(jacobian(mechanism, { p_BoTo_B, R_BP }), mechanism.characteristicLength);
    highest = Math.max(highest, rankOf(svd(J, 6).values));
  }
  return highest;
}

/** All leg directions at home within {@link PARALLEL_SINE} of the first. */
function allLegsParallel(mechanism: Mechanism): boolean {
  const [first, ...others] = legStates(mechanism, mechanism.home);
  return others.every((leg) => length(cross(first.u_B, leg.u_B)) < PARALLEL_SINE);
}

/** Angle in plan between two joints of a plate, 0 to pi [rad]. */
function pairGap(points: Float64Array, one: number, other: number): number {
  const a = at(points, one);
  const b = at(points, other);
  return Math.abs(Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]));
}

/** Two rings count as turned alike within this angle [rad]; rounding of degrees leaves some 1e-15. */
const SAME_TURN = 1e-9;

function builtGapSum({ spec, centres }: Mechanism): number | null {
  const { base, platform } = spec;
  if (base.kind !== 'ring' || platform.kind !== 'ring') return null;
  const turned = Math.abs(base.ring.turn - platform.ring.turn);
  // base legs 1 and 2 are a pair, platform legs 2 and 3 are
  return turned < SAME_TURN ? pairGap(centres.base, 0, 1) + pairGap(centres.platform, 1, 2) : null;
}
