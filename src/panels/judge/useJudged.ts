import { useDeferredValue, useMemo } from 'react';
import { compiledDesign, inputsOf } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { JudgementInputs } from '../../document/judgement-inputs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { useDesign } from '../design-binding.ts';
import { useJoggedPose } from '../pose-binding.ts';

/** What every judgement starts from. */
export interface Judged {
  readonly design: DesignDocument;
  readonly mechanism: Mechanism;
  readonly pose: Pose;
  readonly inputs: JudgementInputs;
}

const whole = (document: DesignDocument): DesignDocument => document;

/** The design on screen at the present pose; lags behind a slider rather than slowing it down. */
export function useJudged(): Judged {
  const design = useDeferredValue(useDesign(whole));
  const jogged = useDeferredValue(useJoggedPose());
  return useMemo(() => {
    const { mechanism } = compiledDesign(design);
    return { design, mechanism, pose: judgePose(design, jogged).pose, inputs: inputsOf(design) };
  }, [design, jogged]);
}
