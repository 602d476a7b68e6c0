// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { floorsFromDocument } from '../../src/document/floors.ts';
import { validateDesign } from '../../src/document/read-design.ts';
import { floorsOf } from '../../src/headless/floors.ts';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { sameStiffness } from '../../src/kinematics/stiffness.ts';
import type { Result } from '../../src/math/result.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';
import { FloorsGroup } from '../../src/panels/judge/FloorsGroup.tsx';
import { fieldOver } from '../../src/reach/field/field.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { fieldScale } from '../../src/scene/colour/field-scale.ts';
import { ColourChoice } from '../../src/scene/overlay/ColourChoice.tsx';
import { openDocument } from '../../src/state/design/design-store.ts';
import { designStore } from '../../src/state/stores.ts';
import { QUANTITIES, QUANTITY_NAMES } from '../../src/terms/quantities.ts';
import { referenceLayout } from '../kinematics/designs.ts';

afterEach(cleanup);

const mechanism = referenceLayout();
const NOTHING: FieldSettings = { errors: null, stiffness: null, load: null, clearance: null };
const ALL: Required<FieldSettings> = {
  errors: sameErrors({ ...NO_ERRORS, zero: 0.1 }),
  stiffness: sameStiffness({ leg: 700, baseJoint: 5000, platformJoint: 5000 }),
  load: payloadOnly({ mass: 3, centre: [0, 0, 30] }),
  clearance: defaultClearance(mechanism),
};
const UPRIGHT = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });

const must = <Value,>(result: Result<Value, unknown>): Value => {
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result.value;
};

/** Units as the file's names end, with how many of them make an inner unit; by the convention of the file alone. */
const ENDINGS = {
  '1': ['', 1],
  mm: ['_mm', 1],
  'N/mm': ['_N_mm', 1],
  N: ['_N', 1],
  rad: ['_deg', 180 / Math.PI],
} as const;

describe.each(QUANTITY_NAMES.map((name) => [name, QUANTITIES[name]] as const))('the quantity %s', (name, terms) => {
  const [ending, perInner] = ENDINGS[terms.unit];
  const value = terms.floor.start;

  it('is a floor of the file, in its unit', () => {
    expect(terms.inFile).toBe(`${name}${ending}`);
    const design = must(validateDesign({ ...emptyDesign(), floors: { [terms.inFile]: value } }));
    expect(floorsFromDocument(design)).toEqual([{ quantity: name, value: expect.closeTo(value / perInner, 12) }]);
    for (const outside of [terms.floor.min - 1, terms.floor.max * 1.001 + 1])
      expect(validateDesign({ ...emptyDesign(), floors: { [terms.inFile]: outside } }).ok, `${outside}`).toBe(false);
  });

  it('is a floor of the command line, under the same name', () => {
    const asked = floorsOf(new Map([[terms.inFile, value]]), emptyDesign());
    expect(asked).toEqual([{ quantity: name, value: expect.closeTo(value / perInner, 12) }]);
  });

  it('is a floor on screen, and its number is written to the file', () => {
    const design = emptyDesign();
    openDocument(designStore, design, 'Open', { fileName: null, saved: design });
    render(<FloorsGroup />);
    const button = screen.getByRole('button', { name: /^Floors/ });
    if (button.getAttribute('aria-expanded') === 'false') fireEvent.click(button);
    const menu = screen.getByRole('combobox', { name: 'Floor to add' });
    const words = `${terms.words} ${terms.better === 'more' ? 'at least' : 'at most'}`;
    expect(within(menu).getByRole('option', { name: words })).toBeTruthy();
    fireEvent.change(menu, { target: { value: name } });
    fireEvent.click(screen.getByRole('button', { name: 'Add floor' }));
    expect(designStore.getState().document.floors).toEqual({ [terms.inFile]: value });
    const field = screen.getByRole('spinbutton', { name: `Floor, ${words}` });
    const { min, max, step } = terms.floor.travel;
    const next = value + step <= max ? value + step : value - step;
    expect(next).toBeGreaterThanOrEqual(min);
    fireEvent.change(field, { target: { value: String(next) } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(designStore.getState().document.floors).toEqual({ [terms.inFile]: next });
  });

  it('can colour the reach', () => {
    render(<ColourChoice />);
    const shown = ENDINGS[terms.unit][0].slice(1).replace('_', '/');
    expect(screen.getByRole('option', { name: shown === '' ? terms.words : `${terms.words}, ${shown}` })).toBeTruthy();
    const scale = fieldScale(name, { min: 1, max: 9, low: 1, high: 9, count: 100 });
    expect(scale.low).toBeLessThanOrEqual(1);
    expect(scale.high).toBeGreaterThanOrEqual(9);
  });

  it('is read from what it needs and from nothing else, and has a value at home', () => {
    const needed = terms.needs === null ? NOTHING : { ...NOTHING, [terms.needs]: ALL[terms.needs] };
    const { quantities } = must(fieldOver(mechanism, UPRIGHT, [0, 0, 150], needed, [name]));
    const all = must(fieldOver(mechanism, UPRIGHT, [0, 0, 150], ALL, QUANTITY_NAMES)).quantities;
    expect(quantities[name]?.[0]).toBe(all[name]?.[0]);
    expect(Number.isFinite(quantities[name]?.[0])).toBe(true);
    const without = terms.needs === null ? NOTHING : { ...ALL, [terms.needs]: null };
    expect(fieldOver(mechanism, UPRIGHT, [0, 0, 150], without, [name]).ok).toBe(terms.needs === null);
  });

  it('says truly whether it has a value at a singular pose', () => {
    // both rings in one plane: det J is exactly 0
    const { quantities } = must(fieldOver(mechanism, UPRIGHT, [0, 0, 0], ALL, [name]));
    const found = quantities[name]?.[0] ?? Number.NaN;
    // condition is large but may be finite, stiffness is 0
    const none = !Number.isFinite(found) || found === 0 || found > 1e9;
    if (terms.regular) expect(none).toBe(true);
    else expect(Number.isFinite(found)).toBe(true);
  });
});
