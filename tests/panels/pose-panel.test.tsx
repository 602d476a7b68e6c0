// @vitest-environment happy-dom
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { LegTable } from '../../src/panels/legs/LegTable.tsx';
import { LengthsToPose } from '../../src/panels/pose/LengthsToPose.tsx';
import { PosePanel } from '../../src/panels/pose/PosePanel.tsx';
import { openDocument } from '../../src/state/design/design-store.ts';
import { designStore, sessionStore } from '../../src/state/stores.ts';

beforeEach(() => {
  openDocument(designStore, DEMOS.steady, 'Open', { fileName: null, saved: DEMOS.steady });
  sessionStore.setState({ pose: null, highlightedLeg: null });
  render(
    <>
      <PosePanel />
      <LengthsToPose />
      <LegTable />
    </>,
  );
});

afterEach(cleanup);

const field = (name: string) => screen.getByRole<HTMLInputElement>('spinbutton', { name });

function enter(name: string, text: string) {
  fireEvent.change(field(name), { target: { value: text } });
  fireEvent.keyDown(field(name), { key: 'Enter' });
}

describe('the pose panel', () => {
  it('moves by arrow keys as far as was chosen, and returns home', () => {
    const press = (name: string, key: string) => {
      fireEvent.keyDown(field(name), { key });
      fireEvent.keyUp(field(name), { key });
    };
    press('Tool y', 'ArrowDown');
    expect(sessionStore.getState().pose?.position).toEqual([0, -1, 150]);
    fireEvent.change(screen.getByRole('combobox', { name: 'How far arrow keys move the platform' }), {
      target: { value: 'coarse' },
    });
    press('Tool x', 'ArrowUp');
    press('Yaw', 'ArrowDown');
    expect(sessionStore.getState().pose?.position).toEqual([5, -1, 150]);
    expect(sessionStore.getState().pose?.yaw).toBeCloseTo((-5 * Math.PI) / 180, 12);
    expect(field('Yaw').value).toBe('−5.0');
    fireEvent.click(screen.getByRole('button', { name: 'Return home' }));
    expect(sessionStore.getState().pose).toBeNull();
    expect(field('Tool x').value).toBe('0.0');
  });

  it('gives a jog back on Escape, to home itself', () => {
    const slider = screen.getByRole('slider', { name: 'Roll, slider' });
    fireEvent.input(slider, { target: { value: '12' } });
    expect(sessionStore.getState().pose?.roll).toBeCloseTo((12 * Math.PI) / 180, 12);
    fireEvent.keyDown(slider, { key: 'Escape' });
    expect(sessionStore.getState().pose).toBeNull();
  });

  it('says how far each number can go once things rest, and that there is no room past a limit', async () => {
    // level rings of 100 and 70 mm, 40 deg apart in plan: z ends where L^2 = rho^2 + z^2 is 200^2, that is 39.27 above 150
    await screen.findByText('+39.3', undefined, { timeout: 5000 });
    expect(screen.getByText('−48.9')).toBeTruthy();
    enter('Tool z', '215');
    await screen.findByText(/This pose breaks limits/, undefined, { timeout: 5000 });
  });

  it('names a broken limit at the leg, and marks the leg that is pointed at', () => {
    enter('Tool z', '215');
    expect(screen.getAllByRole('row', { name: /too long/ })).toHaveLength(6);
    fireEvent.focus(screen.getByRole('button', { name: 'Leg 4, point at it' }));
    expect(sessionStore.getState().highlightedLeg).toBe(4);
  });

  it('finds the pose of six lengths, one at a time or all at once', () => {
    fireEvent.click(screen.getByRole('button', { name: /Pose from leg lengths/ }));
    enter('Length of leg 3', '170');
    expect(field('Length of leg 3').value).toBe('170.00');
    expect(field('Length of leg 1').value).toBe('163.326');
    const all = screen.getByRole('textbox', { name: 'Six leg lengths in millimetres' });
    fireEvent.change(all, { target: { value: '160 161 162 163 164 165' } });
    fireEvent.submit(all);
    const rows = within(screen.getByRole('table')).getAllByRole('row').slice(1);
    expect(rows.map((row) => row.querySelector('td')?.textContent)).toEqual([
      '160.0',
      '161.0',
      '162.0',
      '163.0',
      '164.0',
      '165.0',
    ]);
    fireEvent.change(all, { target: { value: '160 161 162 163 164 900' } });
    fireEvent.submit(all);
    expect(screen.getByText(/^▲ /)).toBeTruthy();
  });

  it('copies the pose and the table', async () => {
    const written: string[] = [];
    vi.stubGlobal('navigator', { clipboard: { writeText: async (text: string) => void written.push(text) } });
    await act(async () => fireEvent.click(screen.getByRole('button', { name: 'Angles' })));
    await act(async () => fireEvent.click(screen.getByRole('button', { name: 'Copy the table as CSV' })));
    vi.unstubAllGlobals();
    expect(written[0]).toBe(
      'position_mm 0, 0, 150; roll_deg, pitch_deg, yaw_deg 0, 0, 0; R = Rz(yaw) Ry(pitch) Rx(roll)',
    );
    expect(written[1].split('\n')).toHaveLength(8);
    expect(screen.getByText('Angles copied.')).toBeTruthy();
  });
});
