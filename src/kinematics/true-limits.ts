import type { JointState } from './joint-limits.ts';
import type { LegState } from './legs.ts';
import { LIMIT_SLACK, type LimitName } from './limits.ts';

/**
 * Legs with their joint limits judged by the joints' true shapes instead of by cones; lengths stay as they were judged.
 * @param joints of the same legs at the same pose, in the same order
 */
export const judgedByShapes = (legs: readonly LegState[], joints: readonly JointState[]): readonly LegState[] =>
  legs.map((leg, index) => {
    const { baseMargin, platformMargin } = joints[index];
    const violations: LimitName[] = leg.violations.filter((limit) => limit === 'legTooShort' || limit === 'legTooLong');
    if (baseMargin < -LIMIT_SLACK) violations.push('baseJoint');
    if (platformMargin < -LIMIT_SLACK) violations.push('platformJoint');
    return { ...leg, violations };
  });
