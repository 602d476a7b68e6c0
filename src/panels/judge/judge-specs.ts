import type { DesignDocument } from '../../document/design.ts';
import {
  type AccuracyKey,
  accuracyOf,
  centreOf,
  changeAccuracy,
  changeCentre,
  changeForce,
  changeMass,
  changeShapeDiameter,
  changeShapeVector,
  changeStiffness,
  changeTorque,
  forceOf,
  massOf,
  type ShapeVector,
  type StiffnessKey,
  shapeDiameter,
  shapeVector,
  torqueOf,
} from '../../document/edits/judge.ts';
import { type NumberName, RANGES } from '../../document/ranges.ts';
import type { Travel } from '../../ui/travel.ts';
import { AXES, type NumberSpec } from '../number-spec.ts';

interface Rest {
  readonly travel: Travel;
  readonly decimals: number;
  readonly read: (document: DesignDocument) => number;
  readonly write: (document: DesignDocument, value: number) => DesignDocument;
}

/** A number field with the limits that the file has for it. */
export const judgeSpec = (name: string, label: string, range: NumberName, rest: Rest): NumberSpec => ({
  name,
  label,
  unit: RANGES[range].unit,
  range,
  ...rest,
});

/** Short names of the errors; A and B are the plates, as everywhere. */
export const ERROR_LABELS: Readonly<Record<AccuracyKey, string>> = {
  resolution_mm: 'Leg step',
  backlash_mm: 'Backlash',
  zero_mm: 'Zero, ±',
  basePlay_mm: 'Play, A',
  platformPlay_mm: 'Play, B',
  baseHole_mm: 'Hole ±, A',
  platformHole_mm: 'Hole ±, B',
  baseSeat_mm: 'Height ±, A',
  platformSeat_mm: 'Height ±, B',
};

const error = (key: AccuracyKey, name: string): NumberSpec =>
  judgeSpec(name, ERROR_LABELS[key], key, {
    travel: { min: 0, max: 0.5, step: 0.01 },
    decimals: 2,
    read: (document) => accuracyOf(document)[key] ?? 0,
    write: (document, value) => changeAccuracy(document, key, value),
  });

export const ERROR_SPECS: readonly NumberSpec[] = [
  error('resolution_mm', 'Leg resolution'),
  error('backlash_mm', 'Leg backlash'),
  error('zero_mm', 'Leg zero error'),
  error('basePlay_mm', 'Play of base joints'),
  error('platformPlay_mm', 'Play of platform joints'),
  error('baseHole_mm', 'Hole position, base'),
  error('platformHole_mm', 'Hole position, platform'),
  error('baseSeat_mm', 'Joint height, base'),
  error('platformSeat_mm', 'Joint height, platform'),
];

const give = (key: StiffnessKey, name: string, label: string): NumberSpec =>
  judgeSpec(name, label, key, {
    travel: { min: 10, max: 10_000, step: 10 },
    decimals: 0,
    // rigid joints have no number; the field is not shown then
    read: ({ stiffness }) => stiffness?.[key] ?? RANGES[key].max,
    write: (document, value) => changeStiffness(document, key, value),
  });

export const LEG_STIFFNESS_SPEC = give('leg_N_mm', 'Leg stiffness', 'One leg');

export const JOINT_STIFFNESS_SPECS: readonly NumberSpec[] = [
  give('baseJoint_N_mm', 'Base joint stiffness', 'Base joint'),
  give('platformJoint_N_mm', 'Platform joint stiffness', 'Platform joint'),
];

export const MASS_SPEC = judgeSpec('Payload mass', 'Mass', 'mass_kg', {
  travel: { min: 0, max: 20, step: 0.1 },
  decimals: 1,
  read: massOf,
  write: changeMass,
});

/** One number of a vector for each axis, in cells side by side. */
export interface VectorSpecs {
  readonly label: string;
  readonly unit: string;
  readonly cells: readonly NumberSpec[];
}

/** Three number fields for a vector, named by its axes. */
export const vectorSpecs = (
  name: string,
  label: string,
  range: NumberName,
  travel: Travel,
  read: (document: DesignDocument, axis: number) => number,
  write: (document: DesignDocument, axis: number, value: number) => DesignDocument,
  letters: readonly string[] = AXES,
): VectorSpecs => ({
  label,
  unit: RANGES[range].unit,
  cells: letters.map((letter, axis) =>
    judgeSpec(`${name} ${letter}`, letter, range, {
      travel,
      decimals: 1,
      read: (document) => read(document, axis),
      write: (document, value) => write(document, axis, value),
    }),
  ),
});

export const CENTRE_SPECS = vectorSpecs(
  'Centre of mass',
  'Centre',
  'centre_mm',
  { min: -100, max: 100, step: 1 },
  (document, axis) => centreOf(document)[axis],
  changeCentre,
);

export const FORCE_SPECS = vectorSpecs(
  'Outside force',
  'Force',
  'force_N',
  { min: -50, max: 50, step: 1 },
  (document, axis) => forceOf(document)[axis],
  changeForce,
);

export const TORQUE_SPECS = vectorSpecs(
  'Outside torque',
  'Torque',
  'torque_N_mm',
  { min: -5000, max: 5000, step: 100 },
  (document, axis) => torqueOf(document)[axis],
  changeTorque,
);

/** Number fields of one keep-out volume. */
export interface KeepOutSpecs {
  readonly box: readonly VectorSpecs[];
  readonly cylinder: readonly VectorSpecs[];
  readonly diameter: NumberSpec;
}

const known = new Map<number, KeepOutSpecs>();

/** The number fields of the keep-out at a place in the list; the same object each time. */
export function keepOutSpecs(index: number): KeepOutSpecs {
  const found = known.get(index);
  if (found) return found;
  const vector = (name: ShapeVector, words: string, label: string) =>
    vectorSpecs(
      `Keep-out ${index + 1} ${words}`,
      label,
      name,
      { min: name === 'size_mm' ? 1 : -200, max: 200, step: 1 },
      (document, axis) => shapeVector(document, index, name)[axis],
      (document, axis, value) => changeShapeVector(document, index, name, axis, value),
    );
  const specs: KeepOutSpecs = {
    box: [vector('middle_mm', 'middle', 'Middle'), vector('size_mm', 'size', 'Size')],
    cylinder: [vector('from_mm', 'from', 'From'), vector('to_mm', 'to', 'To')],
    diameter: judgeSpec(`Keep-out ${index + 1} diameter`, 'Diameter', 'diameter_mm', {
      travel: { min: 1, max: 200, step: 1 },
      decimals: 1,
      read: (document) => shapeDiameter(document, index),
      write: (document, value) => changeShapeDiameter(document, index, value),
    }),
  };
  known.set(index, specs);
  return specs;
}
