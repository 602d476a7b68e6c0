import type { SignLeg } from '../../reach/field/field-cut.ts';
import { legWords } from '../../words/legs.ts';
import type { FieldState } from './field-store.ts';

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
