import { describe, expect, it } from 'vitest';
import { FLOOR_NAMES } from '../../src/document/floor-fields.ts';
import { floorsFromDocument } from '../../src/document/floors.ts';
import { RANGES } from '../../src/document/ranges.ts';
import { validateDesign } from '../../src/document/read-design.ts';
import { FIELD_QUANTITIES, QUANTITY_MEANING } from '../../src/reach/field/field-quantities.ts';
import { sampleDesign } from '../state/sample-design.ts';

describe('floors of a design', () => {
  it('are those of the field, in its order and in its units', () => {
    expect(Object.keys(FLOOR_NAMES)).toEqual([...FIELD_QUANTITIES]);
    const shown = { '1': '', mm: 'mm', 'N/mm': 'N/mm', N: 'N', rad: 'deg' } as const;
    for (const quantity of FIELD_QUANTITIES)
      expect(RANGES[FLOOR_NAMES[quantity]].unit).toBe(shown[QUANTITY_MEANING[quantity].unit]);
  });

  it('come in inner units, angles in radians', () => {
    const floors = { platformMargin_deg: 9, condition: 12, stiffness_N_mm: 500 };
    expect(floorsFromDocument({ ...sampleDesign, floors })).toEqual([
      { quantity: 'condition', value: 12 },
      { quantity: 'stiffness', value: 500 },
      { quantity: 'platformMargin', value: Math.PI / 20 },
    ]);
    expect(floorsFromDocument(sampleDesign)).toEqual([]);
  });

  it('are refused out of their range or under another name, with the place', () => {
    const messages = (floors: object) => {
      const read = validateDesign({ ...sampleDesign, floors });
      return read.ok ? [] : read.fault.map(({ message }) => message);
    };
    expect(messages({ toolError_mm: 0.2, leastPush_N: -3 })).toEqual([]);
    expect(messages({ toolError_mm: -1 })[0]).toContain('floors.toolError_mm');
    expect(messages({ stiffness_N_um: 5 })[0]).toContain('floors.stiffness_N_um');
  });
});
