import { assessArchitecture } from '../kinematics/architecture.ts';
import { assessClearance } from '../kinematics/clearance.ts';
import { assessIndependence } from '../kinematics/independence.ts';
import type { ClearanceSpec } from '../kinematics/keep-out.ts';
import { legStates } from '../kinematics/legs.ts';
import type { LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';

const LIMIT_FINDINGS: Readonly<Record<LimitName, string>> = {
  legTooShort: 'would have to be shorter than it gets',
  legTooLong: 'would have to be longer than it gets',
  baseJoint: 'tilts its base joint further than it allows',
  platformJoint: 'tilts its platform joint further than it allows',
};

/** What is wrong with a design at home, a sentence each: limits broken, bodies that meet, legs that do not hold the platform. */
export function designFindings(mechanism: Mechanism, clearance: ClearanceSpec): readonly string[] {
  const { home } = mechanism;
  const states = legStates(mechanism, home);
  const limits = states.flatMap(({ leg, violations }) =>
    violations.map((limit) => `At home leg ${leg} ${LIMIT_FINDINGS[limit]}.`),
  );
  const { verdict } = assessIndependence(mechanism, home, assessArchitecture(mechanism));
  const singular = verdict.word.startsWith('singular') ? [`The platform is ${verdict.word}. ${verdict.reason}`] : [];
  const met = assessClearance(mechanism, home, clearance);
  const nearest = met.ok ? met.value.smallest : null;
  const meeting = nearest && nearest.distance <= 0 ? [`At home ${nearest.a} and ${nearest.b} meet.`] : [];
  return [...limits, ...singular, ...meeting];
}
