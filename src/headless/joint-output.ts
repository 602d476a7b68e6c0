import type { DesignContent } from '../document/design.ts';
import type { JudgementInputs } from '../document/judgement-inputs.ts';
import { degrees, onlyBalls } from '../document/units.ts';
import { jointStates, legTwists } from '../kinematics/joint-limits.ts';
import type { UniversalAngles } from '../kinematics/joint-shapes.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { LegState } from '../kinematics/legs.ts';
import { LIMIT_SLACK, type LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Pose } from '../kinematics/pose.ts';
import { figure } from './findings.ts';

/** What a pose does to the joints, by their true limits. */
export interface JointOutput {
  /** Of each leg, to go beside its length and tilts. */
  readonly legs: readonly object[];
  /** The legs with joint limits judged by the joints' kinds. */
  readonly judged: readonly LegState[];
  /** A line for each joint of another kind than a ball that is past its limit. */
  readonly findings: readonly string[];
}

const KIND_WORDS = { ball: 'ball', rodEnd: 'rod end', universal: 'universal joint' } as const;

/** Margins of all joints, angles of universal joints, and the twist of legs with universal joints at both ends. */
export function jointOutput(
  design: DesignContent,
  mechanism: Mechanism,
  pose: Pose,
  legs: readonly LegState[],
  { shapes, screwLead }: JudgementInputs,
): JointOutput {
  const states = jointStates(mechanism, pose, shapes);
  const twists = legTwists(mechanism, pose, shapes, screwLead ?? 0);
  const findings: string[] = [];
  const judged = legs.map((leg, index): LegState => {
    if (onlyBalls(design)) return leg;
    const margins = { base: states[index].baseMargin, platform: states[index].platformMargin };
    const past = (plate: PlateName): readonly LimitName[] => {
      if (margins[plate] >= -LIMIT_SLACK) return [];
      const by = figure(degrees(-margins[plate]));
      findings.push(
        `Leg ${leg.leg} is ${by} deg past the limit of its ${plate} joint, a ${KIND_WORDS[design.joints[plate].kind]}.`,
      );
      return [`${plate}Joint`];
    };
    const lengths = leg.violations.filter((limit) => limit === 'legTooShort' || limit === 'legTooLong');
    return { ...leg, violations: [...lengths, ...past('base'), ...past('platform')] };
  });
  return {
    judged,
    findings,
    legs: states.map((state, index) => ({
      baseMargin_deg: degrees(state.baseMargin),
      platformMargin_deg: degrees(state.platformMargin),
      ...(state.baseAngles ? { baseAngles_deg: anglesOutput(state.baseAngles) } : {}),
      ...(state.platformAngles ? { platformAngles_deg: anglesOutput(state.platformAngles) } : {}),
      ...(twists ? { twist_deg: degrees(twists[index].twist) } : {}),
      ...(twists && screwLead !== null ? { twistLength_mm: twists[index].lengthChange } : {}),
    })),
  };
}

const anglesOutput = ({ first, second }: UniversalAngles) => [degrees(first), degrees(second)];
