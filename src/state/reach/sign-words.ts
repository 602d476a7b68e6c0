import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { SignLeg } from '../../reach/field/field-cut.ts';
import type { FieldState } from './field-store.ts';

/** "leg 2", "legs 2 and 5", "every leg". */
export function legWords(legs: readonly number[]): string {
  if (legs.length === LEG_COUNT) return 'every leg';
  return legs.length === 1 ? `leg ${legs[0]}` : `legs ${legs.slice(0, -1).join(', ')} and ${legs.at(-1)}`;
}

/** Whether the force of a leg changes sign in the reach, in a sentence. */
export function signWords({ finished, working, failure }: FieldState['signs'], leg: SignLeg): string {
  if (failure !== null && !working) return `It could not be found: ${failure}`;
  if (!finished) return 'being found…';
  const { changing, singular } = finished.value;
  if (singular) return 'Every pose here is singular: no leg has a definite force.';
  if (changing.length === 0) return 'No leg’s force changes sign in the reach.';
  if (leg === 'any') return `It changes sign in the reach for ${legWords(changing)}.`;
  return changing.includes(leg)
    ? `The force of leg ${leg} changes sign in the reach.`
    : `The force of leg ${leg} keeps its sign; it changes for ${legWords(changing)}.`;
}
