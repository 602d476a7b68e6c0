import { failed, ok, type Result } from '../math/result.ts';
import type { Vec3 } from '../math/vec3.ts';
import { inputFault, type JudgementFault } from './inverse-jacobian.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import type { Mechanism } from './mechanism.ts';

/** Where a leg's length or its joint centres can be off, in the order in which tables name them. */
export const ERROR_SOURCES = [
  'resolution',
  'backlash',
  'zero',
  'basePlay',
  'platformPlay',
  'baseHole',
  'platformHole',
  'baseSeat',
  'platformSeat',
] as const;

export type ErrorSource = (typeof ERROR_SOURCES)[number];

/** Plain words for a source of error. */
export const ERROR_SOURCE_WORDS: Readonly<Record<ErrorSource, string>> = {
  resolution: 'leg resolution',
  backlash: 'leg backlash',
  zero: 'leg zero',
  basePlay: 'play of the base joint',
  platformPlay: 'play of the platform joint',
  baseHole: 'hole position, base',
  platformHole: 'hole position, platform',
  baseSeat: 'joint height, base',
  platformSeat: 'joint height, platform',
};

/** Limits of the errors of one leg and its two joints [mm], all at least 0. */
export interface LegErrors {
  /** Smallest step of the leg; its length is within half a step of what was asked. */
  readonly resolution: number;
  /** Lost motion on reversal, end to end; half of it either way. Load that never reverses closes it. */
  readonly backlash: number;
  /** The length at zero is known within plus or minus this. */
  readonly zero: number;
  /** Free movement of the joint centre in its seat, end to end, in any direction; half of it either way. */
  readonly basePlay: number;
  readonly platformPlay: number;
  /**
   * The joint centre lies within this of its drawn place: in the plate's plane on a ring, in any direction for free
   * points, which name no plane.
   */
  readonly baseHole: number;
  readonly platformHole: number;
  /** The joint centre's height over the plate is right within plus or minus this. */
  readonly baseSeat: number;
  readonly platformSeat: number;
}

/** No errors at all; spread it and fill in what is known. */
export const NO_ERRORS: LegErrors = {
  resolution: 0,
  backlash: 0,
  zero: 0,
  basePlay: 0,
  platformPlay: 0,
  baseHole: 0,
  platformHole: 0,
  baseSeat: 0,
  platformSeat: 0,
};

/** The same errors for all six legs. */
export const sameErrors = (errors: LegErrors): readonly LegErrors[] => Array.from({ length: LEG_COUNT }, () => errors);

/**
 * How much each source can change each leg's effective length [mm], flat 9 x 6 (source by leg).
 *
 * A leg of fixed length whose joint centres are off by db at the base and dp on the platform acts as one that is off by
 * `u . (R dp - db)`; so only the part along the leg counts, and what a ball, a disc or a line of possible centres
 * can do along u is its half-width in that direction.
 * @param J Jacobian, whose rows start with u_i in base axes
 * @param toPlatform turns a base-axes vector into platform axes
 */
export function legErrorBounds(
  mechanism: Mechanism,
  J: Float64Array,
  toPlatform: (u_B: Vec3) => Vec3,
  errors: readonly LegErrors[],
): Result<Float64Array, JudgementFault> {
  const fault = errorFault(errors);
  if (fault) return failed(fault);
  const bounds = new Float64Array(ERROR_SOURCES.length * LEG_COUNT);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const u_B: Vec3 = [J[6 * leg], J[6 * leg + 1], J[6 * leg + 2]];
    const base = shareOf(mechanism, 'base', u_B);
    const platform = shareOf(mechanism, 'platform', toPlatform(u_B));
    const own = errors[leg];
    const column: Readonly<Record<ErrorSource, number>> = {
      resolution: own.resolution / 2,
      backlash: own.backlash / 2,
      zero: own.zero,
      basePlay: own.basePlay / 2,
      platformPlay: own.platformPlay / 2,
      baseHole: own.baseHole * base.hole,
      platformHole: own.platformHole * platform.hole,
      baseSeat: own.baseSeat * base.seat,
      platformSeat: own.platformSeat * platform.seat,
    };
    ERROR_SOURCES.forEach((source, index) => {
      bounds[LEG_COUNT * index + leg] = column[source];
    });
  }
  return ok(bounds);
}

/** How much of an error in a plate's plane (hole) and square to it (seat) lies along the leg. */
function shareOf(mechanism: Mechanism, plate: PlateName, u: Vec3): { readonly hole: number; readonly seat: number } {
  const flat = Math.hypot(u[0], u[1]);
  return {
    hole: mechanism.spec[plate].kind === 'ring' ? flat : 1,
    seat: Math.abs(u[2]),
  };
}

function errorFault(errors: readonly LegErrors[]): JudgementFault | null {
  if (errors.length !== LEG_COUNT) return inputFault(`Errors are needed for six legs, not ${errors.length}.`);
  for (const [leg, own] of errors.entries()) {
    for (const source of ERROR_SOURCES) {
      const value = own[source];
      if (!(value >= 0) || !Number.isFinite(value)) {
        return inputFault(
          `Leg ${leg + 1}, ${ERROR_SOURCE_WORDS[source]}: ${value} mm; it must be a number of at least 0.`,
        );
      }
    }
  }
  return null;
}
