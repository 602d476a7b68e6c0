/** What a motion is held against along its way, in the order of reports. */
export const MOTION_LIMITS = [
  'shortestLeg',
  'longestLeg',
  'baseTilt',
  'platformTilt',
  'speed',
  'acceleration',
  'push',
  'pull',
  'power',
] as const;

export type MotionLimit = (typeof MOTION_LIMITS)[number];
