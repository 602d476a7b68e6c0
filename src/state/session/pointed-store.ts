import { createStore } from 'zustand/vanilla';
import type { PoseAngles } from '../../kinematics/pose.ts';
import type { PoseBox } from '../../reach/pose-box.ts';

/** Poses that are pointed at outside of the drawing and shown in it; none of it moves the platform. */
export interface PointedState {
  /** A pose on a curve, drawn as a ghost of the platform. */
  readonly pose: PoseAngles | null;
  /** The box of poses that a proof is about; its positions are drawn. */
  readonly box: PoseBox | null;
}

export const createPointedStore = () => createStore<PointedState>()(() => ({ pose: null, box: null }));

export type PointedStore = ReturnType<typeof createPointedStore>;
