import { cross, length, unit, type Vec3 } from '../math/vec3.ts';
import { type DirectionBounds, directionBounds, type JointShape, squareTo } from './joint-shapes.ts';

/** Which way a rod end's bolt, or a universal joint's first axis, lies in its plate. */
export type CrossAxis =
  /** In the plate's plane, along the joint circle or toward its centre. */
  | { readonly kind: 'tangential' }
  | { readonly kind: 'radial' }
  /** In the plate's plane and square to the leg as it lies at the home pose: no tilt at home. */
  | { readonly kind: 'acrossLeg' }
  /** Six azimuths in the plate's frame and one rise out of its plane [rad]. */
  | { readonly kind: 'angles'; readonly toward: Float64Array; readonly rise: number };

/** The kind of the six joints of one plate; mount axis and first limit are given beside it. */
export type JointKind =
  | { readonly kind: 'ball' }
  | { readonly kind: 'rodEnd'; readonly bolt: CrossAxis }
  | { readonly kind: 'universal'; readonly first: CrossAxis; readonly secondLimit: number };

/** A joint kind other than a ball in a socket, whose limit is no cone about the mount axis. */
export type CrossKind = Exclude<JointKind, { readonly kind: 'ball' }>;

/** One joint of such a kind: its limits, and the same ones as bounds; both in the frame of its plate. */
export interface CrossJoint {
  readonly shape: JointShape;
  readonly bounds: DirectionBounds;
}

/** Where one joint sits in its plate, in the plate's frame. */
export interface JointPlace {
  /** 0 to 5. */
  readonly index: number;
  readonly centre: Vec3;
  /** Unit mount axis. */
  readonly axis: Vec3;
  /** Direction of the leg at the home pose, toward the other plate; of any length. */
  readonly home: Vec3;
}

/** Resolves a joint; `limit` is its only or its first limit [rad]. */
export function crossJoint(kind: CrossKind, limit: number, place: JointPlace): CrossJoint {
  const shape = shapeOf(kind, limit, place);
  return { shape, bounds: directionBounds(shape) };
}

function shapeOf(kind: CrossKind, limit: number, place: JointPlace): JointShape {
  if (kind.kind === 'rodEnd') return { kind: 'rodEnd', bolt: crossAxis(kind.bolt, place), limit };
  const { axis } = place;
  const wanted = crossAxis(kind.first, place);
  // an axis along the mount has no part square to it; any square direction then is as good
  const first = squareTo(axis, wanted) ?? squareTo(axis, [1, 0, 0]) ?? [0, 1, 0];
  return { kind: 'universal', axis, first, firstLimit: limit, secondLimit: kind.secondLimit };
}

function crossAxis(choice: CrossAxis, { index, centre, home }: JointPlace): Vec3 {
  const radial = unit([centre[0], centre[1], 0]);
  const outward: Vec3 = length(radial) > 0 ? radial : [1, 0, 0];
  const tangential: Vec3 = [-outward[1], outward[0], 0];
  if (choice.kind === 'radial') return outward;
  if (choice.kind === 'tangential') return tangential;
  if (choice.kind === 'acrossLeg') {
    const across = unit(cross([0, 0, 1], home));
    return length(across) > 0 ? across : tangential;
  }
  const flat = Math.cos(choice.rise);
  const azimuth = choice.toward[index];
  return [flat * Math.cos(azimuth), flat * Math.sin(azimuth), Math.sin(choice.rise)];
}
