import { documentFromPose, mechanismFromDocument, poseFromDocument } from '../document/units.ts';
import { assessArchitecture } from '../kinematics/architecture.ts';
import { type AssemblyPoses, type ForwardFault, solveAll, solveNear } from '../kinematics/forward.ts';
import { LIMIT_SLACK } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Pose } from '../kinematics/pose.ts';
import { quaternionFromRotation } from '../math/rotation.ts';
import { designVerb } from './design-verb.ts';
import { figure } from './findings.ts';
import { jsonText } from './json-output.ts';
import { badArgument } from './option.ts';
import { ALL, LENGTHS, NEAR } from './options.ts';
import { poseOf } from './pose.ts';
import { done, type Outcome, refused } from './verb.ts';

/** Six lengths to one pose, or to all of them. */
export const solve = designVerb({
  options: [LENGTHS, NEAR, ALL],
  run(document, request) {
    const lengths = request.get(LENGTHS);
    if (!lengths) return refused([badArgument('--lengths', 'missing', 'six leg lengths in mm', 'Add it.')]);
    const mechanism = mechanismFromDocument(document);
    if (request.get(ALL)) return everyPose(mechanism, lengths);
    const near = poseOf(request.get(NEAR));
    return nearestPose(mechanism, lengths, near ? poseFromDocument(near) : mechanism.home);
  },
});

function nearestPose(mechanism: Mechanism, lengths: readonly number[], near: Pose): Outcome {
  const { centres, p_PoTo_P } = mechanism;
  const found = solveNear(centres, lengths, near, p_PoTo_P);
  if (found.ok) {
    const { pose, determinant, residual, assemblyChanged } = found.value;
    const poses = [poseOutput(pose, determinant, residual)];
    return done(jsonText({ poses, assemblyChanged }), findings(mechanism, lengths));
  }
  if (found.fault.kind !== 'impossibleLengths' && assessArchitecture(mechanism).singularEverywhere) {
    return done(jsonText({ poses: [], assemblyChanged: false }), findings(mechanism, lengths));
  }
  return refused([lengthFault(lengths, found.fault, otherPoses(mechanism, lengths, found.fault))]);
}

function everyPose(mechanism: Mechanism, lengths: readonly number[]): Outcome {
  const found = solveAll(mechanism.centres, lengths, { tool: mechanism.p_PoTo_P });
  if (!found.ok && found.fault.kind === 'singularEverywhere') {
    return done(jsonText({ poses: [], complete: false, continuum: true }), findings(mechanism, lengths));
  }
  if (!found.ok) return refused([lengthFault(lengths, found.fault, '')]);
  const { poses, complete, continuum } = found.value;
  if (poses.length === 0) return refused([noPose(lengths, found.value)]);
  const output = {
    poses: poses.map((pose) => poseOutput(pose.pose, pose.determinant, pose.residual)),
    complete,
    continuum,
  };
  return done(jsonText(output), findings(mechanism, lengths));
}

function poseOutput(pose: Pose, determinant: number, residual_mm: number) {
  const { position_mm, ...angles } = documentFromPose(pose);
  return { position_mm, quaternion_wxyz: quaternionFromRotation(pose.R_BP), ...angles, determinant, residual_mm };
}

/** Lengths beyond the stroke, and a layout whose lengths fix no pose. */
function findings(mechanism: Mechanism, lengths: readonly number[]): readonly string[] {
  const { min, max } = mechanism.legs;
  const slack = LIMIT_SLACK * mechanism.size;
  const range = `legs are ${figure(min)} to ${figure(max)} mm long`;
  const beyond = lengths.flatMap((length, leg) =>
    length < min - slack || length > max + slack ? [`Leg ${leg + 1} is asked to be ${length} mm; ${range}.`] : [],
  );
  const { singularEverywhere } = assessArchitecture(mechanism);
  const loose = 'The legs are dependent at every pose, so six lengths do not fix a pose.';
  return singularEverywhere ? [...beyond, loose] : beyond;
}

const shown = (lengths: readonly number[]): string => lengths.join(',');

const lengthFault = (lengths: readonly number[], { text }: ForwardFault, more: string) =>
  badArgument('--lengths', shown(lengths), 'six lengths that a pose has', `${text}${more}`);

/** After a failure near the guess: whether there is any pose at all. */
function otherPoses(mechanism: Mechanism, lengths: readonly number[], { kind }: ForwardFault): string {
  if (kind !== 'notConverged' && kind !== 'nearSingular') return '';
  const all = solveAll(mechanism.centres, lengths, { tool: mechanism.p_PoTo_P });
  if (!all.ok) return '';
  const { poses, complete } = all.value;
  if (poses.length > 0) return ` Elsewhere there are ${poses.length} poses; --all lists them.`;
  return complete ? ' No other pose has these lengths either.' : '';
}

function noPose(lengths: readonly number[], { complete }: AssemblyPoses) {
  const remedy = complete ? 'No pose has them; measure again.' : 'None was found; measure again.';
  return badArgument('--lengths', shown(lengths), 'six lengths that a pose has', remedy);
}
