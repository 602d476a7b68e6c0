import { add, cross, dot, length, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';

/**
 * How far one joint lets its leg lean, in the frame of the plate it sits on. `d` below is the unit direction of the leg
 * as seen from the joint (toward the other plate), in the same frame.
 */
export type JointShape =
  /** A ball in a socket: a cone of half angle `limit` [rad] about the mount axis. */
  | { readonly kind: 'ball'; readonly axis: Vec3; readonly limit: number }
  /** A rod end: free to turn about its bolt, and tilting by up to `limit` [rad] out of the plane square to the bolt. */
  | { readonly kind: 'rodEnd'; readonly bolt: Vec3; readonly limit: number }
  /**
   * A universal joint: turns about `first`, which is fixed to the plate and square to the mount axis, then tilts about a
   * second axis square to it. Both angles are zero with the leg along the mount axis; each has its limit [rad].
   */
  | {
      readonly kind: 'universal';
      readonly axis: Vec3;
      readonly first: Vec3;
      readonly firstLimit: number;
      readonly secondLimit: number;
    };

/** Angles of a universal joint [rad]: about its first axis, then about its second. */
export interface UniversalAngles {
  readonly first: number;
  readonly second: number;
}

/** `d = first sin(second) + cos(second) (axis cos(first) + (axis x first) sin(first))`, solved for the two angles. */
export function universalAngles(axis: Vec3, first: Vec3, d: Vec3): UniversalAngles {
  const out = dot(d, first);
  const across = dot(d, cross(axis, first));
  const along = dot(d, axis);
  return { first: Math.atan2(across, along), second: Math.atan2(out, Math.hypot(across, along)) };
}

/** Angle by which the leg tilts out of the plane square to a rod end's bolt [rad, 0 to pi/2]. */
export const boltTilt = (bolt: Vec3, d: Vec3): number => Math.atan2(Math.abs(dot(d, bolt)), length(cross(d, bolt)));

/** Room left before the joint stops the leg [rad]; negative when it is past its limit. */
export function jointMargin(shape: JointShape, d: Vec3): number {
  switch (shape.kind) {
    case 'ball':
      return shape.limit - Math.atan2(length(cross(d, shape.axis)), dot(d, shape.axis));
    case 'rodEnd':
      return shape.limit - boltTilt(shape.bolt, d);
    case 'universal': {
      const { first, second } = universalAngles(shape.axis, shape.first, d);
      return Math.min(shape.firstLimit - Math.abs(first), shape.secondLimit - Math.abs(second));
    }
  }
}

/** A limit as `w . d >= least` on the leg's unit direction d, w a unit vector: a cone about w. */
export interface DirectionBound {
  readonly w: Vec3;
  readonly least: number;
}

/** The limits of one joint as bounds that are linear in the direction. */
export interface DirectionBounds {
  /** Every one of these has to hold. */
  readonly all: readonly DirectionBound[];
  /** Of these two one has to hold, besides; null for most joints, see {@link directionBounds}. */
  readonly either: readonly [DirectionBound, DirectionBound] | null;
}

/**
 * The same limits as {@link jointMargin} >= 0: a cone is one bound, a band two, a universal joint four. With the first limit L of a
 * universal joint the leg has to stay on the inner side of two planes through its first axis; up to 90 deg of both, past
 * that of either, so that what is left out is a wedge of 2 (180 deg - L) about the opposite of the mount axis.
 */
export function directionBounds(shape: JointShape): DirectionBounds {
  switch (shape.kind) {
    case 'ball':
      return { all: shape.limit >= Math.PI ? [] : [{ w: shape.axis, least: Math.cos(shape.limit) }], either: null };
    case 'rodEnd':
      return { all: band(shape.bolt, shape.limit), either: null };
    case 'universal': {
      const { axis, first, firstLimit, secondLimit } = shape;
      const tilt = band(first, secondLimit);
      if (firstLimit >= Math.PI) return { all: tilt, either: null };
      const side = scale(cross(axis, first), Math.cos(firstLimit));
      const along = scale(axis, Math.sin(firstLimit));
      const planes = [
        { w: subtract(along, side), least: 0 },
        { w: add(along, side), least: 0 },
      ] as const;
      return firstLimit <= Math.PI / 2 ? { all: [...tilt, ...planes], either: null } : { all: tilt, either: planes };
    }
  }
}

/** |axis . d| <= sin(limit), two bounds; none when the limit is a right angle or more. */
function band(axis: Vec3, limit: number): readonly DirectionBound[] {
  if (limit >= Math.PI / 2) return [];
  const least = -Math.sin(limit);
  return [
    { w: axis, least },
    { w: scale(axis, -1), least },
  ];
}

/** The part of `v` square to the unit vector `axis`, at unit length; null when nothing is left of it. */
export function squareTo(axis: Vec3, v: Vec3): Vec3 | null {
  const rest = subtract(v, scale(axis, dot(v, axis)));
  return length(rest) > SQUARE_REST * length(v) ? unit(rest) : null;
}

/** A direction within this sine of the axis names no direction square to it: a thousandth of a degree. */
const SQUARE_REST = 2e-5;
