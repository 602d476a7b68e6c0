// @vitest-environment happy-dom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { DesignPanels } from '../../src/panels/design/DesignPanels.tsx';
import { liveDocument, openDocument, undo } from '../../src/state/design/design-store.ts';
import { designStore, sessionStore } from '../../src/state/stores.ts';
import { numberText } from '../../src/words/numbers.ts';

vi.mock('../../src/words/numbers.ts', { spy: true });

const ringOf = (plate: 'base' | 'platform') => {
  const layout = liveDocument(designStore.getState())[plate];
  if (!('ring' in layout)) throw new Error(`the ${plate} is no ring`);
  return layout.ring;
};

const steps = () => designStore.temporal.getState().pastStates.length;

beforeEach(() => {
  openDocument(designStore, DEMOS.steady, 'Open', { fileName: null, saved: DEMOS.steady });
  designStore.temporal.getState().clear();
  sessionStore.setState({ pose: null, highlightedLeg: null });
  render(<DesignPanels />);
});

afterEach(cleanup);

const field = (name: string) => screen.getByRole<HTMLInputElement>('spinbutton', { name });
const slider = (name: string) => screen.getByRole<HTMLInputElement>('slider', { name: `${name}, slider` });

function enter(name: string, text: string) {
  fireEvent.change(field(name), { target: { value: text } });
  fireEvent.keyDown(field(name), { key: 'Enter' });
}

describe('the design panels', () => {
  it('make a whole drag one step, labelled with what it did, that undo takes back', () => {
    fireEvent.pointerDown(slider('Base pair gap'));
    for (const value of ['24', '31', '25']) fireEvent.input(slider('Base pair gap'), { target: { value } });
    expect(ringOf('base').gap_deg).toBe(25);
    expect(steps()).toBe(0);
    fireEvent.pointerUp(slider('Base pair gap'));
    expect(steps()).toBe(1);
    expect(designStore.getState().label).toBe('Base pair gap 25 deg');
    act(() => undo(designStore));
    expect(ringOf('base').gap_deg).toBe(20);
    expect(field('Base pair gap').value).toBe('20.0');
  });

  it('make no step of a drag that comes back to where it began', () => {
    fireEvent.input(slider('Platform radius'), { target: { value: '80' } });
    fireEvent.input(slider('Platform radius'), { target: { value: '70' } });
    fireEvent.pointerUp(slider('Platform radius'));
    expect(steps()).toBe(0);
    expect(designStore.getState().draft).toBeNull();
  });

  it('keep the shortest leg below the longest and name the limit', () => {
    enter('Shortest leg', '200');
    expect(liveDocument(designStore.getState()).legs.min_mm).toBe(120);
    expect(field('Shortest leg').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByText(/not below the limit of 200.0 mm, the longest leg/)).toBeTruthy();
  });

  it('say what dead length the legs leave, and warn where no plain actuator fits', () => {
    expect(screen.getByText('40 mm')).toBeTruthy(); // 2 * 120 - 200
    enter('Longest leg', '250');
    expect(screen.getByText(/twice the shortest or more: .* = −10 mm/)).toBeTruthy();
  });

  it('move the joints hole by hole with arrow keys, and show the holes', () => {
    const joint = screen.getByRole('button', { name: /Base joint \s*2\s*, hole \s*3$/ });
    fireEvent.focus(joint);
    expect(sessionStore.getState().highlightedLeg).toBe(2);
    fireEvent.keyDown(joint, { key: 'ArrowUp' });
    expect(ringOf('base').gap_deg).toBe(30);
    expect(screen.getByRole('button', { name: /Base joint \s*2\s*, hole \s*4$/ })).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: '↺ Platform one hole counter-clockwise' }));
    expect(ringOf('platform').turn_deg).toBe(5);
    expect(steps()).toBe(2);
  });

  it('turn a ring into points and back without a question, and ask where points are on no ring', () => {
    const [asPoints] = screen.getAllByRole('radio', { name: 'Free points' });
    const [asRing] = screen.getAllByRole('radio', { name: 'Ring' });
    fireEvent.click(asPoints);
    expect(field('Base joint 1 x').value).toBe('98.481'); // 100 cos(-10 deg)
    fireEvent.click(asRing);
    expect(ringOf('base')).toMatchObject({ radius_mm: 100, gap_deg: 20, turn_deg: 0 });
    fireEvent.click(asPoints);
    enter('Base joint 1 z', '7');
    fireEvent.click(asRing);
    expect('points_mm' in liveDocument(designStore.getState()).base).toBe(true);
    expect(screen.getByText(/the nearest one moves a joint by 7 mm/)).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Move them' }));
    expect(ringOf('base').radius_mm).toBe(100);
  });

  it('lean mounts by a rule and by single azimuths', () => {
    const [leaning] = screen.getAllByRole('radio', { name: 'Leaning' });
    fireEvent.click(leaning);
    const rule = screen.getByRole<HTMLSelectElement>('combobox', { name: 'Base mounts lean toward' });
    expect(rule.value).toBe('leg');
    fireEvent.change(rule, { target: { value: 'outward' } });
    expect(field('Base mount 4 azimuth').value).toBe('130.0');
    enter('Base mount 4 azimuth', '100');
    expect(rule.value).toBe('own');
  });

  it('make the present pose home, and put the platform there', () => {
    const button = screen.getByRole<HTMLButtonElement>('button', { name: 'Make the present pose home' });
    expect(button.disabled).toBe(true);
    act(() => sessionStore.setState({ pose: { position: [1, 2, 160], roll: 0, pitch: 0, yaw: Math.PI / 18 } }));
    fireEvent.click(button);
    expect(sessionStore.getState().pose).toBeNull();
    expect(liveDocument(designStore.getState()).home).toEqual({
      position_mm: [1, 2, 160],
      roll_deg: 0,
      pitch_deg: 0,
      yaw_deg: 10,
    });
  });

  // every control that renders writes its number a few times
  it('render one control at a tick of its slider, not all of them', () => {
    vi.mocked(numberText).mockClear();
    fireEvent.input(slider('Base pair gap'), { target: { value: '33' } });
    expect(field('Base pair gap').value).toBe('33.0');
    expect(vi.mocked(numberText).mock.calls.length).toBeGreaterThan(0);
    expect(vi.mocked(numberText).mock.calls.length).toBeLessThan(8);
  });
});
