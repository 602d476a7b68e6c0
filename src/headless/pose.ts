import type { PoseDocument } from '../document/design.ts';
import { degrees, mechanismFromDocument, poseFromDocument } from '../document/units.ts';
import { assessArchitecture } from '../kinematics/architecture.ts';
import { assessIndependence } from '../kinematics/independence.ts';
import { legStates } from '../kinematics/legs.ts';
import { type LoosestMotion, REFERENCE_PLAY } from '../kinematics/loosest-motion.ts';
import { limitFindings, unreachable, verdictFindings } from './findings.ts';
import { jsonText } from './json-output.ts';
import { AT, type OptionValues } from './options.ts';
import { done, refused, type Verb } from './verb.ts';

/** Everything about one pose. */
export const pose: Verb = {
  usage: 'FILE [--at x,y,z,roll,pitch,yaw]',
  says: 'legs, Jacobian, verdict and loosest motion at a pose (mm, deg; home if left out)',
  options: [AT],
  run(document, options) {
    const asked = askedPose(options, AT.name) ?? document.home;
    const mechanism = mechanismFromDocument(document);
    const at = poseFromDocument(asked);
    const given = options.has(AT.name);
    const [option, shown] = given
      ? ['--at', poseNumbers(asked).join(',')]
      : ['home.position_mm', asked.position_mm.join(', ')];
    const faults = unreachable(mechanism, at, option, shown);
    if (faults.length > 0) return refused(faults);
    const legs = legStates(mechanism, at);
    const judged = assessIndependence(mechanism, at, assessArchitecture(mechanism));
    const output = jsonText({
      pose: asked,
      legs: legs.map((leg) => ({
        leg: leg.leg,
        length_mm: leg.length,
        baseTilt_deg: degrees(leg.baseTilt),
        platformTilt_deg: degrees(leg.platformTilt),
        violations: leg.violations,
      })),
      jacobian: rows(judged.jacobian),
      determinant: judged.determinant,
      characteristicLength_mm: judged.characteristicLength,
      singularValues: judged.singularValues,
      condition: judged.condition,
      magnification: judged.magnification,
      rank: judged.rank,
      verdict: judged.verdict,
      loosestMotion: loosestMotionOutput(judged.loosestMotion),
    });
    return done(output, [...limitFindings(legs, mechanism), ...verdictFindings(judged.verdict)]);
  },
};

/** The pose given with an option, or undefined. */
export function askedPose(options: OptionValues, name: string): PoseDocument | undefined {
  const numbers = options.get(name);
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
