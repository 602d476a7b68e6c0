import type { Mechanism } from '../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../math/long-work.ts';
import { JUDGE_FULLY, RequirementJudge, type RequirementReport, type TaskParts } from './judge-requirement.ts';
import type { Requirement } from './requirement.ts';
import { tauOf } from './tau.ts';

/** A requirement, judged, with how much of it passes. */
export interface ScaledReport extends RequirementReport {
  /** See {@link tauOf}. */
  readonly tau: number | null;
}

/** A task, judged. */
export interface TaskReport {
  /** Every must is met. */
  readonly meets: boolean;
  /** The least of the musts; of the wishes where nothing must be. */
  readonly margin: number;
  /** The least share of any must that passes; null where none has one. */
  readonly tau: number | null;
  readonly requirements: readonly ScaledReport[];
}

/**
 * Judges every requirement of a task over its whole region.
 * @returns null when the work was stopped
 */
export function judgeTask(
  mechanism: Mechanism,
  parts: TaskParts,
  requirements: readonly Requirement[],
  work: LongWork = neverStop,
): TaskReport | null {
  const judge = new RequirementJudge(mechanism, parts);
  const reports: ScaledReport[] = [];
  for (const [n, requirement] of requirements.entries()) {
    work.report(n, requirements.length);
    if (work.shouldStop()) return null;
    const report = judge.judge(requirement, JUDGE_FULLY);
    reports.push({ ...report, tau: tauOf(judge, requirement, report.margin) });
  }
  work.report(requirements.length, requirements.length);
  return summary(reports);
}

/** What the reports of its requirements say of a task. */
export function summary(reports: readonly ScaledReport[]): TaskReport {
  const musts = reports.filter(({ must }) => must);
  const counted = musts.length > 0 ? musts : reports;
  const taus = counted.flatMap(({ tau }) => (tau === null ? [] : [tau]));
  return {
    meets: musts.every(({ meets }) => meets),
    margin: Math.min(...counted.map(({ margin }) => margin)),
    tau: taus.length > 0 ? Math.min(...taus) : null,
    requirements: reports,
  };
}
