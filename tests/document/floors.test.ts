import { describe, expect, it } from 'vitest';
import { floorsFromDocument } from '../../src/document/floors.ts';
import { validateDesign } from '../../src/document/read-design.ts';
import { sampleDesign } from '../state/sample-design.ts';

describe('floors of a design', () => {
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
