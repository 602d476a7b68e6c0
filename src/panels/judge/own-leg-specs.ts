import type { AccuracyKey, StiffnessKey } from '../../document/edits/judge.ts';
import { changeOwnError, changeOwnStiffness, ownError, ownStiffness } from '../../document/edits/own-legs.ts';
import { RANGES } from '../../document/ranges.ts';
import type { NumberSpec } from '../number-spec.ts';
import { ERROR_LABELS } from './judge-specs.ts';
import type { OwnLegRow } from './OwnLegs.tsx';

const LEGS = [0, 1, 2, 3, 4, 5];

const errorRow = (key: AccuracyKey, words: string): OwnLegRow => ({
  label: ERROR_LABELS[key],
  cells: LEGS.map(
    (leg): NumberSpec => ({
      name: `Leg ${leg + 1} ${words}`,
      label: String(leg + 1),
      unit: 'mm',
      range: key,
      travel: { min: 0, max: 0.5, step: 0.01 },
      decimals: 2,
      read: (document) => ownError(document, leg, key),
      write: (document, value) => changeOwnError(document, leg, key, value),
    }),
  ),
});

/** Errors of the single legs [mm], in the order of the common ones. */
export const OWN_ERROR_ROWS: readonly OwnLegRow[] = [
  errorRow('resolution_mm', 'step'),
  errorRow('backlash_mm', 'backlash'),
  errorRow('zero_mm', 'zero error'),
  errorRow('basePlay_mm', 'base play'),
  errorRow('platformPlay_mm', 'platform play'),
  errorRow('baseHole_mm', 'base hole position'),
  errorRow('platformHole_mm', 'platform hole position'),
  errorRow('baseSeat_mm', 'base joint height'),
  errorRow('platformSeat_mm', 'platform joint height'),
];

const stiffnessRow = (key: StiffnessKey, words: string, label: string): OwnLegRow => ({
  label,
  cells: LEGS.map(
    (leg): NumberSpec => ({
      name: `Leg ${leg + 1} ${words}`,
      label: String(leg + 1),
      unit: 'N/mm',
      range: key,
      travel: { min: 10, max: 10_000, step: 10 },
      decimals: 0,
      // a joint that does not give has no number, and its row is not shown
      read: (document) => ownStiffness(document, leg, key) ?? RANGES[key].max,
      write: (document, value) => changeOwnStiffness(document, leg, key, value),
    }),
  ),
});

/** Stiffness of the single legs [N/mm]; the last two rows only where joints give. */
export const OWN_STIFFNESS_ROWS: readonly OwnLegRow[] = [
  stiffnessRow('leg_N_mm', 'stiffness', 'Leg'),
  stiffnessRow('baseJoint_N_mm', 'base joint stiffness', 'Base joint'),
  stiffnessRow('platformJoint_N_mm', 'platform joint stiffness', 'Platform joint'),
];
