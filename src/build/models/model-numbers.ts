import type { LegState } from '../../kinematics/legs.ts';
import { legStates } from '../../kinematics/legs.ts';
import { platformOrigin } from '../../kinematics/pose.ts';
import { cross, scale, unit, type Vec3 } from '../../math/vec3.ts';
import type { BuildParts } from '../parts.ts';

/** Mass of each leg part where nothing is known of it [kg]; said in every model. */
export const LEG_PART_MASS = 1e-3;

/** Moment of inertia of a part about an axis along which it has none [kg m^2]: engines refuse zero. */
export const LEAST_INERTIA = 1e-9;

/** Thousandths, for models in metres. */
export const MILLI = 1e-3;

/** A leg at home as models hold it: metres, base axes. */
export interface ModelLeg {
  readonly leg: number;
  /** Joint centres [m]. */
  readonly base: Vec3;
  readonly tip: Vec3;
  /** The leg's own axes: z along it, from base to platform; unit, base axes. */
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
  /** [m] */
  readonly length: number;
}

/** What a model of the platform at home is made of. */
export interface ModelNumbers {
  readonly legs: readonly ModelLeg[];
  /** Origin of the platform's frame, base axes [m]. */
  readonly platform: Vec3;
  /** Payload: mass [kg], centre in the platform's frame [m], inertia about it [kg m^2]. */
  readonly mass: number;
  readonly centre: Vec3;
  readonly inertia: Vec3;
  /** What is assumed, a sentence each. */
  readonly assumed: readonly string[];
}

export function modelNumbers({ mechanism, load, assumed }: BuildParts): ModelNumbers {
  const { payload } = load;
  const inertia = payload.inertia ?? [0, 0, 0];
  const square = 1e-6;
  // a point mass gets the inertia of a ball of a tenth of the platform's size, so that an engine can turn it
  const own = 0.4 * payload.mass * (0.1 * mechanism.size * MILLI) ** 2;
  const least = payload.inertia ? LEAST_INERTIA : Math.max(own, LEAST_INERTIA);
  return {
    legs: legStates(mechanism, mechanism.home).map(modelLeg),
    platform: scale(platformOrigin(mechanism.home, mechanism.p_PoTo_P), MILLI),
    mass: payload.mass,
    centre: scale(payload.centre, MILLI),
    inertia: [
      Math.max(inertia[0] * square, least),
      Math.max(inertia[1] * square, least),
      Math.max(inertia[2] * square, least),
    ],
    assumed: [
      ...(assumed.payload ? ['Payload: 1 kg at the tool point stands in, because the design states none.'] : []),
      ...(payload.inertia ? [] : ['Payload inertia: that of a small ball stands in, because the design states none.']),
      'Leg parts: 1 g each stands in, without weight of their own, because the design states none.',
    ],
  };
}

function modelLeg({ leg, baseJoint_B, platformJoint_B, u_B, length }: LegState): ModelLeg {
  // a horizontal first axis where there is one, so that the hinges read like a universal joint
  const level = cross([0, 0, 1], u_B);
  const x = unit(Math.hypot(...level) > LEVEL ? level : cross([1, 0, 0], u_B));
  return {
    leg,
    base: scale(baseJoint_B, MILLI),
    tip: scale(platformJoint_B, MILLI),
    x,
    y: cross(u_B, x),
    z: u_B,
    length: length * MILLI,
  };
}

/** Sine of the lean below which a leg is upright and has no level axis of its own. */
const LEVEL = 1e-6;
