import { buildInputs } from '../document/build-inputs.ts';
import type { DesignDocument } from '../document/design.ts';
import { BUILD_SLACK, type BuildRule, judgeBuildable } from '../kinematics/buildable/judge.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { gapWords } from '../words/buildable.ts';

/** Rules whose breaking is a limit of the pose, which is found and said as such. */
const SAID: ReadonlySet<BuildRule> = new Set<BuildRule>(['homeLength', 'homeTilt']);

/** Whether a design can be built at home and on its plates: every rule with its tightest gap, and a line for each that is broken. */
export function buildableOutput(document: DesignDocument, mechanism: Mechanism) {
  const { possible, worst, gaps } = judgeBuildable(mechanism, buildInputs(document, mechanism));
  const fits = (gap: number) => gap >= -BUILD_SLACK;
  return {
    output: {
      possible,
      worst_mm: worst.gap,
      worst: gapWords(worst, fits(worst.gap)),
      gaps: gaps.map(({ rule, plate, legs, gap }) => ({ rule, ...(plate ? { plate } : {}), legs, gap_mm: gap })),
    },
    findings: gaps
      .filter(({ rule, gap }) => !fits(gap) && !SAID.has(rule))
      .map((gap) => `Cannot be built: ${gapWords(gap, false)}.`),
  };
}
