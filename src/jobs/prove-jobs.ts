import type { ClearanceSpec } from '../kinematics/keep-out.ts';
import { compileMechanism, type MechanismSpec } from '../kinematics/mechanism.ts';
import type { LongWork } from '../math/long-work.ts';
import type { PoseBox } from '../reach/pose-box.ts';
import { type BoxDecision, decideBox } from '../reach/prove/prove.ts';
import type { Question } from '../reach/prove/prove-claims.ts';
import { foundOrThrow } from './outcome.ts';

/** A layout, a box of poses about it, and what is asked. Plain data: it crosses to the worker as it is. */
export interface ProveQuestion {
  readonly spec: MechanismSpec;
  readonly box: PoseBox;
  readonly asked: readonly Question[];
  readonly clearance: ClearanceSpec;
  readonly clearanceFloor: number;
  readonly depth: number;
  readonly boxes: number;
}

/** Decides about a box of poses. Throws with the reason when the box or a joint cannot be judged. */
export function proveJob(question: ProveQuestion, work: LongWork): BoxDecision {
  const { spec, box, asked, ...options } = question;
  return foundOrThrow(decideBox(compileMechanism(spec), box, asked, options, work));
}
