import { startTransition, useEffect, useState } from 'react';
import { inputsOf } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { JudgementInputs } from '../../document/judgement-inputs.ts';
import type { JudgedPose } from '../../kinematics/judge.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { judgementNow } from '../pose-binding.ts';

/** What every judgement starts from. */
export interface Judged {
  readonly design: DesignDocument;
  readonly mechanism: Mechanism;
  readonly pose: Pose;
  /** What is true there; each part is computed once, by whoever asks first. */
  readonly at: JudgedPose;
  readonly inputs: JudgementInputs;
}

let last: Judged | null = null;

/** The design on screen at the present pose; the same object until one of them changes. */
function judgedNow(): Judged {
  const design = liveDocument(designStore.getState());
  const at = judgementNow();
  if (last?.design !== design || last.at !== at)
    last = { design, mechanism: at.mechanism, pose: at.pose, at, inputs: inputsOf(design) };
  return last;
}

/** The design on screen at the present pose; lags behind a slider rather than slowing it down. */
export function useJudged(): Judged {
  const [judged, setJudged] = useState(judgedNow);
  useEffect(() => {
    let shown: Judged | null = null;
    const follow = () => {
      const now = judgedNow();
      if (now === shown) return;
      shown = now;
      startTransition(() => setJudged(now));
    };
    follow();
    const stops = [designStore, sessionStore].map((store) => store.subscribe(follow));
    return () => {
      for (const stop of stops) stop();
    };
  }, []);
  return judged;
}
