import type { Solid } from '../kinematics/bodies.ts';
import { type LegErrors, NO_ERRORS } from '../kinematics/error-sources.ts';
import type { Inertia } from '../kinematics/inertia.ts';
import { type ClearanceSpec, defaultClearance, type PlateBody } from '../kinematics/keep-out.ts';
import { LEG_COUNT, type PlateName } from '../kinematics/layout.ts';
import { type Balance, type Load, type Payload, STANDARD_GRAVITY } from '../kinematics/load.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { LegStiffness } from '../kinematics/stiffness.ts';
import { type UniformBody, uniformBody } from '../kinematics/uniform-body.ts';
import { add, length, scale, unit, type Vec3 } from '../math/vec3.ts';
import { radians } from '../terms/units.ts';
import type { DesignContent, PayloadShapeDocument } from './design.ts';

/** Leg length error assumed where a design says nothing of its accuracy: plus or minus this [mm]. An example, no part's value. */
export const ASSUMED_ZERO = 0.05;

/** Payload assumed where a design says nothing of its load [kg], at the tool point: forces then read as newtons a kilogram. */
export const ASSUMED_MASS = 1;

/** What the judgements are computed from, in millimetres, radians, newtons and kilograms. */
export interface JudgementInputs {
  readonly errors: readonly LegErrors[];
  /** Null when the design does not say how stiff its legs are: nothing is assumed then. */
  readonly stiffness: readonly LegStiffness[] | null;
  readonly load: Load;
  readonly clearance: ClearanceSpec;
  /** Advance of the legs' screws in one turn [mm]; null when not given. */
  readonly screwLead: number | null;
  /** What was filled in because the design says nothing of it. */
  readonly assumed: { readonly accuracy: boolean; readonly payload: boolean; readonly plates: boolean };
}

const EACH_LEG = Array.from({ length: LEG_COUNT }, (_, leg) => leg);

/** Reads them from a design, with the stated assumptions where it is silent. */
export function judgementInputs(design: DesignContent, mechanism: Mechanism): JudgementInputs {
  const { stiffness, legs } = design;
  return {
    errors: EACH_LEG.map((leg) => legErrors(design, leg)),
    stiffness: stiffness ? EACH_LEG.map((leg) => legStiffness(stiffness, leg)) : null,
    load: loadOf(design),
    clearance: clearanceOf(design, mechanism),
    screwLead: legs.screwLead_mm ?? null,
    assumed: {
      accuracy: design.accuracy === undefined,
      payload: design.payload === undefined,
      plates: design.plates === undefined,
    },
  };
}

/** Errors of one leg (0 to 5): its own where it has any, else those of all. */
function legErrors({ accuracy }: DesignContent, leg: number): LegErrors {
  if (!accuracy) return { ...NO_ERRORS, zero: ASSUMED_ZERO };
  const own = { ...accuracy, ...accuracy.ownByLeg?.[leg] };
  return {
    resolution: own.resolution_mm ?? 0,
    backlash: own.backlash_mm ?? 0,
    zero: own.zero_mm ?? 0,
    basePlay: own.basePlay_mm ?? 0,
    platformPlay: own.platformPlay_mm ?? 0,
    baseHole: own.baseHole_mm ?? 0,
    platformHole: own.platformHole_mm ?? 0,
    baseSeat: own.baseSeat_mm ?? 0,
    platformSeat: own.platformSeat_mm ?? 0,
  };
}

function legStiffness(stiffness: NonNullable<DesignContent['stiffness']>, leg: number): LegStiffness {
  const own = { ...stiffness, ...stiffness.ownByLeg?.[leg] };
  return {
    leg: own.leg_N_mm,
    baseJoint: own.baseJoint_N_mm ?? Number.POSITIVE_INFINITY,
    platformJoint: own.platformJoint_N_mm ?? Number.POSITIVE_INFINITY,
  };
}

function payloadOf({ payload, tool }: DesignContent): Payload {
  if (!payload) return { mass: ASSUMED_MASS, centre: tool.point_mm };
  const { mass_kg: mass, centre_mm, inertia_kg_mm2, shape } = payload;
  const centre = centre_mm ?? (shape ? centreOfShape(shape) : tool.point_mm);
  const inertia = inertia_kg_mm2 ?? (shape && inertiaOfShape(shape, mass));
  return inertia ? { mass, centre, inertia } : { mass, centre };
}

const bodies = new WeakMap<PayloadShapeDocument, UniformBody | null>();

/** A shape as a body of one density; the same shape object always gives the same object. Null for a hull without inside. */
export function bodyOfShape(shape: PayloadShapeDocument): UniformBody | null {
  const known = bodies.get(shape);
  if (known !== undefined) return known;
  const body = uniformBody(solidFromDocument(shape));
  bodies.set(shape, body);
  return body;
}

/** Centre of mass of a shape as a body of one density; the middle of a hull without inside. */
export const centreOfShape = (shape: PayloadShapeDocument): Vec3 => bodyOfShape(shape)?.centre ?? middleOf(shape);

function inertiaOfShape(shape: PayloadShapeDocument, mass: number): Inertia | null {
  const body = bodyOfShape(shape);
  if (!body) return null;
  const [xx, yy, zz, xy, xz, yz] = body.inertia;
  return [mass * xx, mass * yy, mass * zz, mass * xy, mass * xz, mass * yz];
}

function loadOf(design: DesignContent): Load {
  const { load = {} } = design;
  const { force_N = [0, 0, 0], torque_N_mm = [0, 0, 0], gravityDirection, gravity_m_s2, counterweight, spring } = load;
  const balances: Balance[] = [];
  if (counterweight) {
    const { anchor_mm, attach_mm, pull_N } = counterweight;
    balances.push({ kind: 'counterweight', anchor_B: anchor_mm, attach_P: attach_mm, pull: pull_N });
  }
  if (spring) {
    const { anchor_mm, attach_mm, rate_N_mm, freeLength_mm } = spring;
    const ends = { anchor_B: anchor_mm, attach_P: attach_mm };
    balances.push({ kind: 'spring', ...ends, rate: rate_N_mm, freeLength: freeLength_mm });
  }
  const gravity = scale(unit(gravityDirection ?? STANDARD_GRAVITY), gravity_m_s2 ?? length(STANDARD_GRAVITY));
  return { payload: payloadOf(design), gravity, force: force_N, torque: torque_N_mm, balances };
}

function clearanceOf(design: DesignContent, mechanism: Mechanism): ClearanceSpec {
  const assumed = defaultClearance(mechanism);
  const zone = (plate: PlateName) => design.plates?.[plate]?.jointZone_mm ?? assumed.jointZone[plate];
  const { shape } = design.payload ?? {};
  return {
    barrelLength: design.legs.barrelLength_mm ?? assumed.barrelLength,
    jointZone: { base: zone('base'), platform: zone('platform') },
    plates: { base: plateOf(design, assumed, 'base'), platform: plateOf(design, assumed, 'platform') },
    payload: shape ? solidFromDocument(shape) : null,
    keepOuts: (design.keepOuts ?? []).map(({ name, fixedTo, shape: solid }) => ({
      name,
      fixedTo,
      solid: solidFromDocument(solid),
    })),
  };
}

function plateOf(design: DesignContent, assumed: ClearanceSpec, plate: PlateName): PlateBody | null {
  const own = design.plates?.[plate];
  const known = assumed.plates[plate];
  if (!own || !known) return known;
  const { thickness_mm, outlineDiameter_mm, outline_mm, openingDiameter_mm } = own;
  const outline: PlateBody['outline'] = outline_mm
    ? { kind: 'polygon', points: Float64Array.from(outline_mm.flat()) }
    : outlineDiameter_mm === undefined
      ? known.outline
      : { kind: 'disc', radius: outlineDiameter_mm / 2 };
  return {
    outline,
    thickness: thickness_mm ?? known.thickness,
    opening: (openingDiameter_mm ?? 0) / 2,
  };
}

/** Middle of a shape, of a hull that of the box around it. */
export function middleOf(shape: PayloadShapeDocument): Vec3 {
  if ('box' in shape) return shape.box.middle_mm;
  if ('hull' in shape) {
    const { low, high } = boxAround(shape.hull.corners_mm);
    return scale(add(low, high), 0.5);
  }
  const { from_mm, to_mm } = shape.cylinder;
  return scale(add(from_mm, to_mm), 0.5);
}

/** The smallest box along the axes that holds all points. */
export function boxAround(points: readonly Vec3[]): { readonly low: Vec3; readonly high: Vec3 } {
  const along = (axis: 0 | 1 | 2) => points.map((point) => point[axis]);
  return {
    low: [Math.min(...along(0)), Math.min(...along(1)), Math.min(...along(2))],
    high: [Math.max(...along(0)), Math.max(...along(1)), Math.max(...along(2))],
  };
}

/** A shape of the file as a solid. */
export function solidFromDocument(shape: PayloadShapeDocument): Solid {
  if ('box' in shape) {
    const { middle_mm, size_mm, boxTurn_deg = 0 } = shape.box;
    return { kind: 'box', centre: middle_mm, size: size_mm, turn: radians(boxTurn_deg) };
  }
  if ('hull' in shape) return { kind: 'hull', points: Float64Array.from(shape.hull.corners_mm.flat()) };
  const { from_mm, to_mm, diameter_mm } = shape.cylinder;
  return { kind: 'cylinder', from: from_mm, to: to_mm, radius: diameter_mm / 2 };
}
