import { useStore } from 'zustand';
import { presentPose } from '../document/compiled.ts';
import type { JudgedPose } from '../kinematics/judge.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { judgePose } from '../state/design/judged-pose.ts';
import { designStore, sessionStore } from '../state/stores.ts';
import { useDerived } from '../state/use-derived.ts';

/** The jogged pose; null while the platform stands at home. */
export const useJoggedPose = (): PoseAngles | null => useStore(sessionStore, (state) => state.pose);

const STORES = [designStore, sessionStore] as const;

/** Legs and verdict of the design on screen at the present pose. */
export const useJudgement = (): JudgedPose => useDerived(STORES, judgementNow);

/** {@link useJudgement} outside of rendering. */
export const judgementNow = (): JudgedPose =>
  judgePose(liveDocument(designStore.getState()), sessionStore.getState().pose);

/** The present pose in six numbers. */
export const usePresentPose = (): PoseAngles => useDerived(STORES, presentPoseNow);

/** The present pose, outside of rendering. */
export const presentPoseNow = (): PoseAngles =>
  presentPose(liveDocument(designStore.getState()), sessionStore.getState().pose);
