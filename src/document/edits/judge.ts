import type { PlateName } from '../../kinematics/layout.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { CrossAxisDocument, DesignDocument, JointDocument, ShapeDocument } from '../design.ts';
import { ASSUMED_MASS, ASSUMED_ZERO, centreOfShape } from '../judgement-inputs.ts';
import { RANGES } from '../ranges.ts';

type Accuracy = NonNullable<DesignDocument['accuracy']>;
type Stiffness = NonNullable<DesignDocument['stiffness']>;
type Payload = NonNullable<DesignDocument['payload']>;
type KeepOuts = NonNullable<DesignDocument['keepOuts']>;

/** A volume as the file keeps it. */
export type KeepOutDocument = KeepOuts[number];

/** Sources of error as the file names them. */
export type AccuracyKey = Exclude<keyof Accuracy, 'ownByLeg'>;

/** Stiffnesses as the file names them. */
export type StiffnessKey = Exclude<keyof Stiffness, 'ownByLeg'>;

const ZERO: Vec3 = [0, 0, 0];

const replaced = (vector: Vec3, index: number, value: number): Vec3 => [
  index === 0 ? value : vector[0],
  index === 1 ? value : vector[1],
  index === 2 ? value : vector[2],
];

/** Errors that the design states, or those assumed in their place. */
export const accuracyOf = ({ accuracy }: DesignDocument): Accuracy => accuracy ?? { zero_mm: ASSUMED_ZERO };

/** Sets one source of error; the assumption made so far stays as a number of the design. */
export const changeAccuracy = (document: DesignDocument, key: AccuracyKey, value: number): DesignDocument => ({
  ...document,
  accuracy: { ...accuracyOf(document), [key]: value },
});

/** Sets a stiffness [N/mm]. */
export const changeStiffness = (document: DesignDocument, key: StiffnessKey, value: number): DesignDocument => ({
  ...document,
  stiffness: { leg_N_mm: value, ...document.stiffness, [key]: value },
});

/** Lets the joints give, each by as much [N/mm], or makes them rigid (null). */
export function changeJointGive(document: DesignDocument, stiffness: number | null): DesignDocument {
  const { stiffness: now } = document;
  if (!now) return document;
  if (stiffness !== null)
    return { ...document, stiffness: { ...now, baseJoint_N_mm: stiffness, platformJoint_N_mm: stiffness } };
  // rigid in all legs: what single legs had for their joints goes too
  const { leg_N_mm, ownByLeg } = now;
  const bare = (leg: number) => {
    const own = ownByLeg?.[leg]?.leg_N_mm;
    return own === undefined ? {} : { leg_N_mm: own };
  };
  const legs = [bare(0), bare(1), bare(2), bare(3), bare(4), bare(5)] as const;
  const differ = legs.some((leg) => Object.keys(leg).length > 0);
  return { ...document, stiffness: differ ? { leg_N_mm, ownByLeg: legs } : { leg_N_mm } };
}

const payloadOf = ({ payload }: DesignDocument): Payload => payload ?? { mass_kg: ASSUMED_MASS };

export const massOf = (document: DesignDocument): number => payloadOf(document).mass_kg;

export const changeMass = (document: DesignDocument, mass_kg: number): DesignDocument => ({
  ...document,
  payload: { ...payloadOf(document), mass_kg },
});

/** Stated centre of mass, or that of the payload's shape, or the tool point. */
export const centreOf = ({ payload, tool }: DesignDocument): Vec3 =>
  payload?.centre_mm ?? (payload?.shape ? centreOfShape(payload.shape) : tool.point_mm);

export const changeCentre = (document: DesignDocument, index: number, value: number): DesignDocument => ({
  ...document,
  payload: { ...payloadOf(document), centre_mm: replaced(centreOf(document), index, value) },
});

export const forceOf = ({ load }: DesignDocument): Vec3 => load?.force_N ?? ZERO;

export const changeForce = (document: DesignDocument, index: number, value: number): DesignDocument => ({
  ...document,
  load: { ...document.load, force_N: replaced(forceOf(document), index, value) },
});

export const torqueOf = ({ load }: DesignDocument): Vec3 => load?.torque_N_mm ?? ZERO;

export const changeTorque = (document: DesignDocument, index: number, value: number): DesignDocument => ({
  ...document,
  load: { ...document.load, torque_N_mm: replaced(torqueOf(document), index, value) },
});

/** A first cylinder or box: upright in the middle of its plate. */
export function firstShape(kind: 'box' | 'cylinder'): ShapeDocument {
  if (kind === 'box') return { box: { middle_mm: [0, 0, 25], size_mm: [30, 30, 50] } };
  return { cylinder: { from_mm: [0, 0, 0], to_mm: [0, 0, 50], diameter_mm: 30 } };
}

export const addKeepOut = (document: DesignDocument, kind: 'box' | 'cylinder'): DesignDocument => {
  const now = document.keepOuts ?? [];
  const added: KeepOutDocument = { name: `${kind} ${now.length + 1}`, fixedTo: 'base', shape: firstShape(kind) };
  return { ...document, keepOuts: [...now, added] };
};

export function removeKeepOut(document: DesignDocument, index: number): DesignDocument {
  const { keepOuts = [], ...rest } = document;
  const left = keepOuts.filter((_, n) => n !== index);
  return left.length === 0 ? rest : { ...rest, keepOuts: left };
}

const changeKeepOut = (
  document: DesignDocument,
  index: number,
  change: (keepOut: KeepOutDocument) => KeepOutDocument,
): DesignDocument => ({
  ...document,
  keepOuts: (document.keepOuts ?? []).map((keepOut, n) => (n === index ? change(keepOut) : keepOut)),
});

export const renameKeepOut = (document: DesignDocument, index: number, name: string): DesignDocument =>
  changeKeepOut(document, index, (keepOut) => ({ ...keepOut, name }));

export const fixKeepOut = (document: DesignDocument, index: number, fixedTo: PlateName): DesignDocument =>
  changeKeepOut(document, index, (keepOut) => ({ ...keepOut, fixedTo }));

/** Vectors of a shape by their names in the file. */
export type ShapeVector = 'middle_mm' | 'size_mm' | 'from_mm' | 'to_mm';

/** A vector of a keep-out's shape; zeros when its shape has none of that name. */
export function shapeVector(document: DesignDocument, index: number, name: ShapeVector): Vec3 {
  const shape = document.keepOuts?.[index]?.shape;
  if (!shape) return ZERO;
  if ('box' in shape) return name === 'middle_mm' || name === 'size_mm' ? shape.box[name] : ZERO;
  return name === 'from_mm' || name === 'to_mm' ? shape.cylinder[name] : ZERO;
}

export const changeShapeVector = (
  document: DesignDocument,
  index: number,
  name: ShapeVector,
  axis: number,
  value: number,
): DesignDocument =>
  changeKeepOut(document, index, (keepOut) => {
    const vector = replaced(shapeVector(document, index, name), axis, value);
    const { shape } = keepOut;
    if ('box' in shape) return { ...keepOut, shape: { box: { ...shape.box, [name]: vector } } };
    return { ...keepOut, shape: { cylinder: { ...shape.cylinder, [name]: vector } } };
  });

/** Diameter of a cylinder; the smallest there is for another shape. */
export function shapeDiameter(document: DesignDocument, index: number): number {
  const shape = document.keepOuts?.[index]?.shape;
  return shape && 'cylinder' in shape ? shape.cylinder.diameter_mm : RANGES.diameter_mm.min;
}

export const changeShapeDiameter = (document: DesignDocument, index: number, diameter_mm: number): DesignDocument =>
  changeKeepOut(document, index, (keepOut) =>
    'cylinder' in keepOut.shape
      ? { ...keepOut, shape: { cylinder: { ...keepOut.shape.cylinder, diameter_mm } } }
      : keepOut,
  );

const withJoint = (document: DesignDocument, plate: PlateName, joint: JointDocument): DesignDocument => ({
  ...document,
  joints: { ...document.joints, [plate]: joint },
});

/** Gives the joints of a plate another kind, without what only the old kind had; a rod end tilts at most a right angle. */
export function changeJointKind(
  document: DesignDocument,
  plate: PlateName,
  kind: JointDocument['kind'],
): DesignDocument {
  const { tilt_deg, mount } = document.joints[plate];
  return withJoint(document, plate, { kind, tilt_deg: kind === 'rodEnd' ? Math.min(tilt_deg, 90) : tilt_deg, mount });
}

/** Direction of a rod end's bolt or of a universal joint's first axis. */
export const crossAxisOf = ({ kind, bolt, firstAxis }: JointDocument): CrossAxisDocument =>
  (kind === 'rodEnd' ? bolt : firstAxis) ?? 'acrossLeg';

export function changeCrossAxis(document: DesignDocument, plate: PlateName, axis: CrossAxisDocument): DesignDocument {
  const joint = document.joints[plate];
  if (joint.kind === 'ball') return document;
  return withJoint(document, plate, { ...joint, [joint.kind === 'rodEnd' ? 'bolt' : 'firstAxis']: axis });
}

/** Second limit of universal joints [deg]: as the first, at most a right angle, where none is stated. */
export const secondTiltOf = ({ secondTilt_deg, tilt_deg }: JointDocument): number =>
  secondTilt_deg ?? Math.min(tilt_deg, RANGES.secondTilt_deg.max);

export const changeSecondTilt = (document: DesignDocument, plate: PlateName, secondTilt_deg: number): DesignDocument =>
  withJoint(document, plate, { ...document.joints[plate], secondTilt_deg });
