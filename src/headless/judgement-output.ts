import type { JudgementInputs } from '../document/judgement-inputs.ts';
import {
  beyondFirstOrder,
  type ErrorSize,
  holdsFirstOrder,
  type OffsetEffects,
  type ToolShift,
} from '../kinematics/accuracy.ts';
import { PLATE_NAMES } from '../kinematics/clearance-pairs.ts';
import { ERROR_SOURCE_WORDS } from '../kinematics/error-sources.ts';
import type { JudgementFault } from '../kinematics/inverse-jacobian.ts';
import { type JudgedPose, REFERENCE_OFFSET } from '../kinematics/judge.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { beyondLinearSag, type DirectedStiffness } from '../kinematics/stiffness.ts';
import type { Result } from '../math/result.ts';
import { length } from '../math/vec3.ts';
import { degrees } from '../terms/units.ts';

/** Pairs of bodies listed, nearest first. */
const LISTED_PAIRS = 6;

/** The value, or null at a singular pose; every number of a design has been checked when its file was read. */
function valueOrNull<Value>(result: Result<Value, JudgementFault>): Value | null {
  if (result.ok) return result.value;
  if (result.fault.kind === 'singular') return null;
  throw new Error(result.fault.message);
}

const sizeOutput = (size: ErrorSize) => ({
  translation_mm: size.translation,
  length_mm: size.translationLength,
  rotation_deg: size.rotation.map(degrees),
  turn_deg: degrees(size.rotationLength),
});

const shiftOutput = ({ translation, rotation }: ToolShift) => ({
  translation_mm: translation,
  rotation_deg: rotation.map(degrees),
});

/** The same offset in all legs and in each alone; null where it moves the tool too far for a figure of the first order. */
function offsetOutput(mechanism: Mechanism, { allLegs, oneLeg }: OffsetEffects) {
  const shifts = [allLegs, ...oneLeg];
  const [shift, turn] = [
    Math.max(...shifts.map(({ translation }) => length(translation))),
    Math.max(...shifts.map(({ rotation }) => length(rotation))),
  ];
  if (!holdsFirstOrder(mechanism, shift, turn)) return null;
  return { offset_mm: REFERENCE_OFFSET, allLegs: shiftOutput(allLegs), oneLeg: oneLeg.map(shiftOutput) };
}

/** Error of the tool; null at a singular pose. */
export function accuracyOutput(at: JudgedPose, { assumed }: JudgementInputs) {
  const { mechanism } = at;
  const report = valueOrNull(at.accuracy);
  const offsets = valueOrNull(at.offsets);
  if (!report || !offsets) return null;
  const { translationLength, rotationLength } = report.worst;
  const beyond = beyondFirstOrder(mechanism, translationLength, rotationLength);
  return {
    assumed: assumed.accuracy,
    firstOrderHolds: beyond === null,
    ...(beyond === null ? {} : { note: beyond }),
    worst: sizeOutput(report.worst),
    rss: sizeOutput(report.rss),
    contributors: report.contributors.map(({ source, worst, rss, share }) => ({
      source: ERROR_SOURCE_WORDS[source],
      worst_mm: worst.translationLength,
      worst_deg: degrees(worst.rotationLength),
      rss_mm: rss.translationLength,
      share,
    })),
    equalOffset: offsetOutput(mechanism, offsets),
  };
}

/** Leg forces at rest; null at a singular pose. */
export function forcesOutput(at: JudgedPose, { assumed }: JudgementInputs) {
  const report = valueOrNull(at.forces);
  if (!report) return null;
  const { forces, wrench, largestPush, largestPull, mixedSigns, explanation } = report;
  return {
    assumed: assumed.payload,
    leg_N: forces,
    largestPush: largestPush && { leg: largestPush.leg, force_N: largestPush.force },
    largestPull: largestPull && { leg: largestPull.leg, force_N: largestPull.force },
    mixedSigns,
    explanation,
    load: { force_N: wrench.subarray(0, 3), torque_N_mm: wrench.subarray(3) },
  };
}

/** Stiffness at the tool; null at a singular pose, or when the design does not say how stiff its legs are. */
export function stiffnessOutput({ mechanism, stiffness }: JudgedPose, { assumed }: JudgementInputs) {
  if (!stiffness) return null;
  const report = valueOrNull(stiffness);
  if (!report) return null;
  const along = ({ direction, stiffness: value }: DirectedStiffness) => ({ direction, stiffness_N_mm: value });
  const { weakestRotation, sag, sideForce, modes } = report;
  const beyond = beyondLinearSag(mechanism, sag);
  return {
    assumedPayload: assumed.payload,
    firstOrderHolds: beyond === null,
    ...(beyond === null ? {} : { note: beyond }),
    weakest: along(report.weakestTranslation),
    stiffest: along(report.stiffestTranslation),
    weakestRotation: { direction: weakestRotation.direction, stiffness_N_mm_rad: weakestRotation.stiffness },
    sag: shiftOutput(sag),
    sideForce: { force_N: sideForce.direction, ...shiftOutput(sideForce.shift) },
    frequencies_Hz: modes.frequencies,
    ...(modes.fewer === null ? {} : { frequenciesNote: modes.fewer }),
  };
}

/** Smallest distances, and a line for every two bodies that meet; assumed plates are shown but raise no finding. */
export function clearanceOutput({ clearance }: Pick<JudgedPose, 'clearance'>, { assumed }: JudgementInputs) {
  const report = valueOrNull(clearance);
  if (!report) throw new Error('clearance is known at every pose');
  const plates: readonly string[] = Object.values(PLATE_NAMES);
  const known = report.pairs.filter(({ a, b }) => !(assumed.plates && (plates.includes(a) || plates.includes(b))));
  return {
    output: {
      assumedPlates: assumed.plates,
      smallest_mm: report.smallest?.distance ?? null,
      pairs: report.pairs.slice(0, LISTED_PAIRS).map(({ a, b, distance }) => ({ a, b, distance_mm: distance })),
    },
    findings: known
      .filter(({ distance }) => distance <= 0)
      .map(({ a, b }) => `${a[0].toUpperCase()}${a.slice(1)} meets ${b}.`),
  };
}
