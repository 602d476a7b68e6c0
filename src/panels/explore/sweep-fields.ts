import {
  LARGEST_COUNT,
  SWEEP_VARIABLES,
  type SweepVariable,
  type SweepVariableName,
} from '../../document/sweep-file.ts';
import type { presentValues } from '../../state/explore/explore-layout.ts';
import type { Legal, Travel } from '../../ui/travel.ts';
import type { FieldUnit } from '../../words/units.ts';

export const nothing = (): void => undefined;

/** What a number field needs to know about a quantity that is set up here: it has no unfinished state. */
export interface SetupField {
  readonly unit: FieldUnit;
  readonly decimals: number;
  readonly legal: Legal;
  readonly travel: Travel;
  readonly commit: () => void;
  readonly restore: () => void;
}

/** Travel of each variable's slider and arrow keys, in its own unit. */
const TRAVELS: Readonly<Record<SweepVariableName, Travel>> = {
  baseGap_deg: { min: 0, max: 120, step: 1 },
  platformGap_deg: { min: 0, max: 120, step: 1 },
  radiusRatio: { min: 0.1, max: 2, step: 0.05 },
  turn_deg: { min: -60, max: 60, step: 1 },
  homeHeight_mm: { min: 20, max: 500, step: 5 },
  baseRadius_mm: { min: 20, max: 300, step: 5 },
  platformRadius_mm: { min: 20, max: 300, step: 5 },
  mountLean_deg: { min: 0, max: 60, step: 1 },
};

/** The field of a variable's ends. */
export function variableField(name: SweepVariableName): SetupField {
  const { range } = SWEEP_VARIABLES[name];
  return {
    unit: name.endsWith('_deg') ? 'deg' : name.endsWith('_mm') ? 'mm' : '',
    decimals: 0,
    legal: range,
    travel: TRAVELS[name],
    commit: nothing,
    restore: nothing,
  };
}

/** A range to begin with: the usual one, or for sizes about the present value. */
export function startingRange(
  name: SweepVariableName,
  present: ReturnType<typeof presentValues>,
  count: number,
): Pick<SweepVariable, 'from' | 'to' | 'count'> {
  const fixed = STARTING[name];
  if (fixed) return { ...fixed, count: Math.min(count, LARGEST_COUNT) };
  const middle = present?.[name] ?? 100;
  return { from: Number((middle * 0.7).toPrecision(3)), to: Number((middle * 1.3).toPrecision(3)), count };
}

const STARTING: Readonly<Partial<Record<SweepVariableName, { readonly from: number; readonly to: number }>>> = {
  baseGap_deg: { from: 1, to: 119 },
  platformGap_deg: { from: 1, to: 119 },
  radiusRatio: { from: 0.3, to: 1.48 },
  turn_deg: { from: 0, to: 60 },
  mountLean_deg: { from: 0, to: 40 },
};

/** What the figures of every layout depend on. */
export const OPTION_FIELDS = [
  {
    key: 'tilt_deg',
    name: 'Tilt range of the tilt reach',
    label: 'Tilt range',
    unit: 'deg',
    decimals: 0,
    legal: { min: 0, max: 60 },
    travel: { min: 0, max: 40, step: 1 },
  },
  {
    key: 'firmnessFloor',
    name: 'Firmness floor of the usable reach',
    label: 'Firm at least',
    unit: '',
    decimals: 2,
    legal: { min: 0, max: 10 },
    travel: { min: 0, max: 1, step: 0.01 },
  },
  {
    key: 'deadLength_mm',
    name: 'Dead length of a leg: ends and motor',
    label: 'Dead length',
    unit: 'mm',
    decimals: 0,
    legal: { min: 0, max: 1_000_000 },
    travel: { min: 0, max: 200, step: 1 },
  },
] as const;
