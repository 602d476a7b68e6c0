import type { PoseDocument } from '../document/design.ts';
import { judgementInputs } from '../document/judgement-inputs.ts';
import { mechanismFromDocument, onlyBalls, poseFromDocument } from '../document/units.ts';
import { assessArchitecture } from '../kinematics/architecture.ts';
import { judgedAt } from '../kinematics/judge.ts';
import type { LegState } from '../kinematics/legs.ts';
import { type LoosestMotion, REFERENCE_PLAY } from '../kinematics/loosest-motion.ts';
import { degrees } from '../terms/units.ts';
import { buildableOutput } from './build-output.ts';
import { designVerb } from './design-verb.ts';
import { limitFindings, unreachable, verdictFindings } from './findings.ts';
import { jointOutput } from './joint-output.ts';
import { jsonText } from './json-output.ts';
import { accuracyOutput, clearanceOutput, forcesOutput, stiffnessOutput } from './judgement-output.ts';
import { AT } from './options.ts';
import { done, refused } from './verb.ts';

/** Everything about one pose. */
export const pose = designVerb({
  options: [AT],
  run(document, request) {
    const given = poseOf(request.get(AT));
    const asked = given ?? document.home;
    const mechanism = mechanismFromDocument(document);
    const at = poseFromDocument(asked);
    const [option, shown] = given
      ? ['--at', poseNumbers(asked).join(',')]
      : ['home.position_mm', asked.position_mm.join(', ')];
    const faults = unreachable(mechanism, at, option, shown);
    if (faults.length > 0) return refused(faults);
    const inputs = judgementInputs(document, mechanism);
    const whole = judgedAt(mechanism, at, assessArchitecture(mechanism), inputs);
    const { legs, independence: judged } = whole;
    const joints = jointOutput(document, whole, inputs);
    const buildable = buildableOutput(document, mechanism);
    const clearance = clearanceOutput(whole, inputs);
    const output = jsonText({
      pose: asked,
      legs: legs.map((leg, index) => ({
        leg: leg.leg,
        length_mm: leg.length,
        baseTilt_deg: degrees(leg.baseTilt),
        platformTilt_deg: degrees(leg.platformTilt),
        ...joints.legs[index],
        violations: leg.violations,
      })),
      jacobian: rows(judged.jacobian),
      determinant: judged.determinant,
      characteristicLength_mm: judged.characteristicLength,
      singularValues: judged.singularValues,
      condition: judged.condition,
      firmness: judged.firmness,
      magnification: judged.magnification,
      rank: judged.rank,
      verdict: judged.verdict,
      loosestMotion: loosestMotionOutput(judged.loosestMotion),
      accuracy: accuracyOutput(whole, inputs),
      stiffness: stiffnessOutput(whole, inputs),
      forces: forcesOutput(whole, inputs),
      clearance: clearance.output,
      buildable: buildable.output,
    });
    return done(output, [
      ...limitFindings(onlyBalls(document) ? legs : lengthsAlone(legs), mechanism),
      ...joints.findings,
      ...verdictFindings(judged.verdict),
      ...clearance.findings,
      ...buildable.findings,
    ]);
  },
});

/** Legs with what their lengths break; their joints are judged by their kinds. */
const lengthsAlone = (legs: readonly LegState[]): readonly LegState[] =>
  legs.map((leg) => ({
    ...leg,
    violations: leg.violations.filter((limit) => limit === 'legTooShort' || limit === 'legTooLong'),
  }));

/** The pose that an option's six numbers give, or undefined. */
export function poseOf(numbers: readonly number[] | undefined): PoseDocument | undefined {
  if (!numbers) return undefined;
  const [x, y, z, roll_deg, pitch_deg, yaw_deg] = numbers;
  return { position_mm: [x, y, z], roll_deg, pitch_deg, yaw_deg };
}

const poseNumbers = ({ position_mm, roll_deg, pitch_deg, yaw_deg }: PoseDocument): readonly number[] => [
  ...position_mm,
  roll_deg,
  pitch_deg,
  yaw_deg,
];

/** A flat 6x6 as six rows. */
const rows = (J: Float64Array): readonly Float64Array[] =>
  [0, 1, 2, 3, 4, 5].map((row) => J.subarray(6 * row, 6 * row + 6));

/** Per unit of a twist whose scaled length is 1; `axis` is null for a pure translation, `withPlay` when nothing stops it. */
function loosestMotionOutput({ translation, rotation, legChanges, axis, withPlay }: LoosestMotion) {
  return {
    translation_mm: translation,
    rotation_deg: rotation.map(degrees),
    legChanges_mm: legChanges,
    axis: axis && { direction: axis.direction, point_mm: axis.point, lead_mm: axis.pitch * 2 * Math.PI },
    withPlay: withPlay && { play_mm: REFERENCE_PLAY, travel_mm: withPlay.travel, turn_deg: degrees(withPlay.turn) },
  };
}
