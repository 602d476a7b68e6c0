import type { DesignContent } from '../document/design.ts';
import type { JudgementInputs } from '../document/judgement-inputs.ts';
import { onlyBalls } from '../document/units.ts';
import type { JointState } from '../kinematics/joint-limits.ts';
import type { UniversalAngles } from '../kinematics/joint-shapes.ts';
import type { JudgedPose } from '../kinematics/judge.ts';
import type { LegState } from '../kinematics/legs.ts';
import { degrees } from '../terms/units.ts';
import { figure } from './findings.ts';

/** What a pose does to the joints. */
export interface JointOutput {
  /** Of each leg, to go beside its length and tilts. */
  readonly legs: readonly object[];
  /** A line for each joint of another kind than a ball that is past its limit. */
  readonly findings: readonly string[];
}

const KIND_WORDS = { ball: 'ball', rodEnd: 'rod end', universal: 'universal joint' } as const;

/** Margins of all joints, angles of universal joints, and the twist of legs with universal joints at both ends. */
export function jointOutput(
  design: DesignContent,
  { legs, jointStates: states, twists }: JudgedPose,
  { screwLead }: JudgementInputs,
): JointOutput {
  const findings = onlyBalls(design) ? [] : legs.flatMap((leg, index) => pastLimits(design, leg, states[index]));
  return {
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

/** A line for each end of a leg that is past its joint's limit. */
const pastLimits = (design: DesignContent, { leg, violations }: LegState, state: JointState): readonly string[] =>
  (['base', 'platform'] as const).flatMap((plate) => {
    if (!violations.includes(`${plate}Joint`)) return [];
    const by = figure(degrees(-state[`${plate}Margin`]));
    return [
      `Leg ${leg} is ${by} deg past the limit of its ${plate} joint, a ${KIND_WORDS[design.joints[plate].kind]}.`,
    ];
  });

const anglesOutput = ({ first, second }: UniversalAngles) => [degrees(first), degrees(second)];
