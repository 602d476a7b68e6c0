import type { PictureDetail, ReachQuestion, TiltRange } from './reach-service.ts';

export interface ReachSummary {
  readonly volume: number;
}
export interface ReachPicture {
  readonly points: Float32Array;
}

/** The jobs that a worker runs; the same functions serve tests and the main thread. */
export const reachJobs = {
  summary: (_: ReachQuestion): ReachSummary => ({ volume: 1 }),
  picture: (_: ReachQuestion, __: PictureDetail): ReachPicture => ({ points: new Float32Array(3) }),
  tilted: (_: ReachQuestion, __: TiltRange): ReachSummary => ({ volume: 1 }),
};

export type ReachJobs = typeof reachJobs;
