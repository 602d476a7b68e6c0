/** Legs to pose. Start with `solveNear` for live use and `solveAll` for every pose that has six given lengths. */
export { type AssemblyOptions, type AssemblyPoses, solveAll } from './forward/assembly-poses.ts';
export type { ForwardFault } from './forward/faults.ts';
export { NearSolver, type NearStatus, RESIDUAL_TOLERANCE } from './forward/near-solver.ts';
export { type AssemblyPose, LENGTH_TOLERANCE } from './forward/pose-list.ts';
export { type NearPose, solveNear, solveWith } from './forward/solve-near.ts';
