// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { FloorsGroup } from '../../src/panels/judge/FloorsGroup.tsx';
import { UsableCell } from '../../src/panels/verdict/UsableVerdict.tsx';
import type { UsableReach } from '../../src/reach/columns/usable.ts';
import { openDocument, undo } from '../../src/state/design/design-store.ts';
import { designStore, fieldStore } from '../../src/state/stores.ts';
import { percentText, quantityText, usableLine } from '../../src/words/usable.ts';

const usable: UsableReach = {
  reachable: 700_000,
  usable: 350_000,
  usableAnywhere: 360_000,
  errorEstimate: 0.004,
  settled: true,
  step: 2.9,
  floors: [
    { floor: { quantity: 'toolError', value: 0.2 }, share: 0.81, best: 0.13 },
    { floor: { quantity: 'baseMargin', value: Math.PI / 36 }, share: 0.62, best: 0.4 },
  ],
  homeSide: 1,
  reason: null,
};

const design = emptyDesign();

beforeEach(() => {
  openDocument(designStore, design, 'Open', { fileName: null, saved: design });
  fieldStore.setState({ usable: { finished: null, working: false, failure: null } });
});

afterEach(cleanup);

/** Shows a result as one for the design on screen. */
const found = (value: UsableReach) =>
  fieldStore.setState({
    usable: {
      finished: { subject: { document: designStore.getState().document, pose: null }, value },
      working: false,
      failure: null,
    },
  });

describe('the group Floors', () => {
  const open = () => {
    render(<FloorsGroup />);
    const button = screen.getByRole('button', { name: /^Floors/ });
    if (button.getAttribute('aria-expanded') === 'false') fireEvent.click(button);
  };

  it('adds, changes and removes a floor, each as one step', () => {
    open();
    fireEvent.change(screen.getByRole('combobox', { name: 'Floor to add' }), { target: { value: 'clearance' } });
    fireEvent.click(screen.getByRole('button', { name: 'Add floor' }));
    expect(designStore.getState().document.floors).toEqual({ clearance_mm: 2 });
    const field = screen.getByRole('spinbutton', { name: 'Floor, smallest clearance at least' });
    fireEvent.change(field, { target: { value: '3.5' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(designStore.getState().document.floors).toEqual({ clearance_mm: 3.5 });
    expect(screen.queryByRole('option', { name: 'smallest clearance at least' })).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: 'Remove the floor smallest clearance at least' }));
    expect(designStore.getState().document).toEqual(design);
    undo(designStore);
    expect(designStore.getState().document.floors).toEqual({ clearance_mm: 3.5 });
  });

  it('says how much is usable and which share meets each floor', () => {
    found(usable);
    open();
    const shares = within(screen.getByRole('table', { name: /^Share of the reach/ })).getAllByRole('row');
    expect(shares.map(({ textContent }) => textContent)).toEqual([
      'worst tool error at most 0.2 mm81 %best 0.13 mm',
      'room in the base joints at least 5 deg62 %best 22.9 deg',
    ]);
    expect(screen.getByText('350 cm³')).toBeTruthy();
  });

  it('gives the reason when nothing is usable', () => {
    const floor = { quantity: 'stiffness', value: 5000 } as const;
    found({ ...usable, usable: 0, reason: { kind: 'floorNeverMet', floor, best: 61.23 } });
    open();
    expect(screen.getByText(/^▲ Nothing in the reach/).textContent).toBe(
      '▲ Nothing in the reach has a weakest stiffness of at least 5000 N/mm; the best found is 61.2 N/mm.',
    );
  });
});

describe('the verdict Usable', () => {
  it('states the volume, its share and the floor that takes most', () => {
    found(usable);
    render(<UsableCell open={false} onToggle={() => undefined} />);
    const cell = screen.getByRole('button', { name: /^Usable/ });
    expect(cell.textContent).toContain('350 cm³ 50 % of reach');
    expect(cell.textContent).toContain('62 % of the reach has a room in the base joints at least 5 deg; 2 floors');
    expect(cell.getAttribute('data-stale')).toBe('false');
  });

  it('is marked as stale for another design', () => {
    found(usable);
    openDocument(designStore, { ...design, name: 'other' }, 'Open', { fileName: null, saved: null });
    render(<UsableCell open={false} onToggle={() => undefined} />);
    expect(screen.getByRole('button', { name: /^Usable/ }).getAttribute('data-stale')).toBe('true');
  });
});

describe('words', () => {
  it('never round a part of the reach to none or all of it', () => {
    expect([0, 0.002, 0.5, 0.996, 1].map(percentText)).toEqual(['0 %', 'below 1 %', '50 %', 'above 99 %', '100 %']);
  });

  it('show angles in degrees and negative forces with a minus', () => {
    expect(quantityText('platformMargin', Math.PI / 9)).toBe('20 deg');
    expect(quantityText('leastPush', -3.456)).toBe('−3.46 N');
    expect(quantityText('condition', 7)).toBe('7');
  });

  it('say only what is connected where no floors are set, which the title says', () => {
    expect(usableLine({ ...usable, floors: [] })).toBe('Connected to home, no singular pose in the way');
  });
});
