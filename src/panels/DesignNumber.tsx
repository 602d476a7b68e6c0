import { memo, useMemo } from 'react';
import type { DesignDocument } from '../document/design.ts';
import { RANGES } from '../document/ranges.ts';
import type { NumberRange } from '../terms/number-range.ts';
import { NumberField } from '../ui/NumberField.tsx';
import { PairedNumber } from '../ui/PairedNumber.tsx';
import type { Legal } from '../ui/travel.ts';
import type { NumberEntry } from '../ui/useNumberEntry.ts';
import { numberText } from '../words/numbers.ts';
import { withUnit } from '../words/units.ts';
import { dropEdit, finishEdit, previewEdit, useDesign } from './design-binding.ts';
import type { NumberSpec } from './number-spec.ts';

const noEnd = (_: DesignDocument): null => null;

/** Binds one number of the design to a control. */
function useNumberEntryOf(spec: NumberSpec): NumberEntry {
  const value = useDesign(spec.read);
  const below = useDesign<number | null>(spec.below?.read ?? noEnd);
  const above = useDesign<number | null>(spec.above?.read ?? noEnd);
  const legal = useMemo(() => legalNumbers(spec, below, above), [spec, below, above]);
  const actions = useMemo(
    () => ({
      preview: (wanted: number) => previewEdit((document) => spec.write(document, wanted)),
      commit: () => finishEdit(spec.read, (now) => `${spec.name} ${withUnit(numberText(now, 0), spec.unit)}`),
      restore: dropEdit,
    }),
    [spec],
  );
  return { value, unit: spec.unit, decimals: spec.decimals, legal, travel: spec.travel, ...actions };
}

function legalNumbers(spec: NumberSpec, below: number | null, above: number | null): Legal {
  const range: NumberRange = RANGES[spec.range];
  return {
    ...range,
    ...(below !== null && spec.below ? { max: below, belowMax: true, maxSays: spec.below.says } : {}),
    ...(above !== null && spec.above ? { min: above, aboveMin: true, minSays: spec.above.says } : {}),
  };
}

/** A number of the design with slider and field. */
export const DesignNumber = memo(function DesignNumber({ spec }: { readonly spec: NumberSpec }) {
  return <PairedNumber name={spec.name} label={spec.label} {...useNumberEntryOf(spec)} />;
});

/** A number of the design with its field only, for grids. */
export const DesignCell = memo(function DesignCell({ spec }: { readonly spec: NumberSpec }) {
  return <NumberField name={spec.name} {...useNumberEntryOf(spec)} />;
});
