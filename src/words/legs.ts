import { LEG_COUNT } from '../kinematics/layout.ts';

/** "leg 2", "legs 2 and 5", "every leg". */
export function legWords(legs: readonly number[]): string {
  if (legs.length === LEG_COUNT) return 'every leg';
  return legs.length === 1 ? `leg ${legs[0]}` : `legs ${legs.slice(0, -1).join(', ')} and ${legs.at(-1)}`;
}
