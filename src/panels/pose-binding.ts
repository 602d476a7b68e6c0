import { useStore } from 'zustand';
import { presentPose } from '../document/compiled.ts';
import type { DesignDocument } from '../document/design.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { judgePose, type PoseJudgement } from '../state/design/judged-pose.ts';
import { designStore, sessionStore } from '../state/stores.ts';
import { useDesign } from './design-binding.ts';

const whole = (document: DesignDocument): DesignDocument => document;

/** The jogged pose; null while the platform stands at home. */
export const useJoggedPose = (): PoseAngles | null => useStore(sessionStore, (state) => state.pose);

/** Legs and verdict of the design on screen at the present pose. */
export function useJudgement(): PoseJudgement {
  const document = useDesign(whole);
  return judgePose(document, useJoggedPose());
}

/** The present pose in six numbers. */
export function usePresentPose(): PoseAngles {
  const document = useDesign(whole);
  return presentPose(document, useJoggedPose());
}

/** The present pose, outside of rendering. */
export const presentPoseNow = (): PoseAngles =>
  presentPose(liveDocument(designStore.getState()), sessionStore.getState().pose);
