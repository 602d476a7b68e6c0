import type { LimitName } from '../../kinematics/limits.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { ExcludingLimit } from './deepest-point.ts';

/** Corners of an axis-parallel box, base axes [mm]. */
export interface ReachBox {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Why nothing is reachable. */
export type EmptyReason =
  /** The shortest leg is longer than the longest: no length is allowed. */
  | { readonly kind: 'lengthsReversed' }
  /** Shortest and longest leg are equal: at most a surface, of no volume. */
  | { readonly kind: 'noStroke' }
  /** No point was found that keeps all limits; at the best one these limits of these legs miss by `shortfall` [mm]. */
  | { readonly kind: 'excluded'; readonly shortfall: number; readonly limits: readonly ExcludingLimit[] }
  /** A reach exists but is so small that no column met it; it leaves this much room at its deepest point [mm]. */
  | { readonly kind: 'tooSmall'; readonly room: number };

/** Why nothing counts as connected to home. */
export type HomeReason =
  /** The home position breaks these limits at this orientation. */
  | { readonly kind: 'homeNotReachable'; readonly limits: readonly ExcludingLimit[] }
  /** Home is allowed, but its part of the reach is thinner than the columns could resolve. */
  | { readonly kind: 'homeTooThin' };

/** The connected part of the reach that holds the home position. */
export interface HomePart {
  /** [mm^3] */
  readonly volume: number;
  /** Null when the volume is 0. */
  readonly bounds: ReachBox | null;
  /** Parts of the reach not connected with home, as far as the columns tell them apart. */
  readonly islands: number;
  /** Why the volume is 0; null when it is not. */
  readonly reason: HomeReason | null;
}

/** What the limits hold of the boundary. */
export interface BoundaryShares {
  /** [mm^2], estimated from a few hundred columns along each axis: good to some percent. */
  readonly area: number;
  /** Share of the area held by each limit; sums to 1, or all 0 without a boundary. */
  readonly byLimit: Readonly<Record<LimitName, number>>;
  /** Share held by each leg, index 0 = leg 1. */
  readonly byLeg: readonly number[];
  /** The limit with the largest share; null without a boundary. */
  readonly largest: LimitName | null;
}

/** The reachable positions of the tool point, orientation given. */
export interface ReachMeasure {
  /** [mm^3], islands included. */
  readonly volume: number;
  /** Relative to the volume; holds in some 98 of 100 layouts. 0 for an empty reach. */
  readonly errorEstimate: number;
  /** False when the cap on columns, or a stop, came before the asked error. */
  readonly settled: boolean;
  readonly home: HomePart;
  /** Box of the whole reach; null when it is empty. */
  readonly bounds: ReachBox | null;
  readonly boundary: BoundaryShares;
  /** Null unless the reach is empty. */
  readonly empty: EmptyReason | null;
  /** Columns cut along z for the volume, the last lattice; six copies of a wedge counted once. */
  readonly columns: number;
  /** Whether a three-fold symmetry with mirrors was found and used. */
  readonly symmetric: boolean;
}

/**
 * The volume that counts where a single figure stands for the reach [mm^3]: the part connected with home, without islands such as
 * the platform below the base; all of it where home is not in it.
 */
export const reachFromHome = ({ volume, home }: ReachMeasure): number => (home.volume > 0 ? home.volume : volume);

/** The box of the same positions; null when nothing is reachable. */
export const boxFromHome = ({ bounds, home }: ReachMeasure): ReachBox | null => home.bounds ?? bounds;

export interface ReachOptions {
  /** Asked relative error of the volume. */
  readonly relativeError?: number;
  /** Most columns in one lattice. */
  readonly maxColumns?: number;
  /** Limits in force, as bits of the limit codes (see constraints.ts); all when left out. */
  readonly enabled?: number;
}

/** Asked relative error where none is given. */
export const DEFAULT_RELATIVE_ERROR = 0.005;

/** Most columns where none are given; a tenth of the default error needs some five thousand. */
export const DEFAULT_MAX_COLUMNS = 60_000;
