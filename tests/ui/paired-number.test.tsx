// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { useRef, useState } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { PairedNumber } from '../../src/ui/PairedNumber.tsx';

afterEach(cleanup);

/** The expression reader is loaded on first use; a busy machine takes seconds for it. */
const READER_LOADS = { timeout: 20_000 };

vi.setConfig({ testTimeout: 30_000 });

interface Log {
  readonly commit: (value: number) => void;
  readonly restore: () => void;
}

/** A pair gap of 20 deg, legal from 0 to 120, slider from 0 to 60 in steps of 1; `refuse` is refused by the design. */
function Gap({ log, start = 20, refuse }: { readonly log: Log; readonly start?: number; readonly refuse?: number }) {
  const [shown, setShown] = useState(start);
  const design = useRef({ draft: start, finished: start });
  const put = (value: number) => {
    design.current.draft = value;
    setShown(value);
  };
  return (
    <PairedNumber
      name="Base pair gap"
      label="Pair gap"
      value={shown}
      unit="deg"
      decimals={1}
      legal={{ min: 0, max: 120, maxSays: 'a third of a turn' }}
      travel={{ min: 0, max: 60, step: 1 }}
      preview={(value) => {
        if (value === refuse) return 'Two legs would share both ends.';
        put(value);
        return null;
      }}
      commit={() => {
        design.current.finished = design.current.draft;
        log.commit(design.current.finished);
      }}
      restore={() => {
        put(design.current.finished);
        log.restore();
      }}
    />
  );
}

function showGap(props: { readonly start?: number; readonly refuse?: number } = {}) {
  const log = { commit: vi.fn<(value: number) => void>(), restore: vi.fn<() => void>() };
  render(<Gap log={log} {...props} />);
  const field = screen.getByRole<HTMLInputElement>('spinbutton', { name: 'Base pair gap' });
  const slider = screen.getByRole<HTMLInputElement>('slider', { name: /Base pair gap/ });
  return { log, field, slider };
}

const press = (element: HTMLElement, key: string, shiftKey = false) => {
  fireEvent.keyDown(element, { key, shiftKey });
  fireEvent.keyUp(element, { key, shiftKey });
};

describe('a slider paired with a number field', () => {
  it('shows the same value in both and reads the unit out', () => {
    const { field, slider } = showGap();
    expect(field.value).toBe('20.0');
    expect(slider.value).toBe('20');
    expect(field.getAttribute('aria-valuetext')).toBe('20.0 degrees');
    expect(slider.getAttribute('aria-valuetext')).toBe('20.0 degrees');
  });

  it.each([
    ['ArrowUp', false, 21],
    ['ArrowDown', false, 19],
    ['ArrowUp', true, 20.1],
    ['ArrowDown', true, 19.9],
    ['PageUp', false, 30],
    ['PageDown', false, 10],
    ['Home', false, 0],
    ['End', false, 60],
  ])('moves by %s (shift %s) to %d, in the field and on the slider alike', (key, shift, expected) => {
    const { field, log } = showGap();
    press(field, key, shift);
    expect(log.commit.mock.calls).toEqual([[expected]]);
    cleanup();
    const other = showGap();
    press(other.slider, key, shift);
    expect(other.log.commit.mock.calls).toEqual([[expected]]);
  });

  it('is one stop of the Tab key: the field', () => {
    const { field, slider } = showGap();
    expect([field.tabIndex, slider.tabIndex]).toEqual([0, -1]);
  });

  it('leaves left and right to the caret in the field', () => {
    const { field, log } = showGap();
    press(field, 'ArrowRight');
    expect(log.commit).not.toHaveBeenCalled();
  });

  it('makes a held key one change', () => {
    const { field, log } = showGap();
    for (let n = 0; n < 5; n++) fireEvent.keyDown(field, { key: 'ArrowUp' });
    expect(log.commit).not.toHaveBeenCalled();
    fireEvent.keyUp(field, { key: 'ArrowUp' });
    expect(log.commit.mock.calls).toEqual([[25]]);
  });

  it('previews while it is dragged and makes one change on release', () => {
    const { field, slider, log } = showGap();
    fireEvent.pointerDown(slider);
    for (const value of ['22.3', '25', '31.4']) fireEvent.input(slider, { target: { value } });
    expect(field.value).toBe('31.0');
    expect(log.commit).not.toHaveBeenCalled();
    fireEvent.pointerUp(slider);
    slider.dispatchEvent(new Event('change'));
    fireEvent.blur(slider);
    expect(log.commit.mock.calls).toEqual([[31]]);
  });

  it('takes plain numbers on Enter and on blur', () => {
    const { field, log } = showGap();
    fireEvent.change(field, { target: { value: '33.25' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(field.value).toBe('33.25');
    fireEvent.change(field, { target: { value: '34' } });
    fireEvent.blur(field);
    expect(log.commit.mock.calls).toEqual([[33.25], [34]]);
  });

  it('takes sums with units', async () => {
    const { field, log } = showGap();
    fireEvent.change(field, { target: { value: '1/4 rad + 5 deg' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    await waitFor(() => expect(log.commit).toHaveBeenCalled(), READER_LOADS);
    expect(log.commit.mock.calls[0][0]).toBeCloseTo(45 / Math.PI + 5, 10);
  });

  it('keeps the old value and says why when a text is no number', async () => {
    const { field, slider, log } = showGap();
    fireEvent.change(field, { target: { value: 'wide' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    await waitFor(() => expect(field.getAttribute('aria-invalid')).toBe('true'), READER_LOADS);
    expect(slider.value).toBe('20');
    expect(field.value).toBe('wide');
    const fault = document.getElementById(field.getAttribute('aria-describedby') ?? '');
    expect(fault?.textContent).toContain(
      '"wide" is not a number or a sum with units: wide is no unit that is known here. Still 20.0 deg.',
    );
    expect(log.commit).not.toHaveBeenCalled();
    fireEvent.keyDown(field, { key: 'Escape' });
    expect(field.value).toBe('20.0');
    expect(field.getAttribute('aria-invalid')).toBe('false');
  });

  it('shows a number beyond the limit as such, names the limit, and applies nothing', () => {
    const { field, slider, log } = showGap();
    fireEvent.change(field, { target: { value: '150' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(field.value).toBe('150');
    expect(field.getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByRole('status').textContent).toContain(
      '150.0 deg is above the limit of 120.0 deg, a third of a turn. Still 20.0 deg.',
    );
    expect(slider.value).toBe('20');
    expect(log.commit).not.toHaveBeenCalled();
  });

  it('shows why the design refuses a value', () => {
    const { field, log } = showGap({ refuse: 30 });
    fireEvent.change(field, { target: { value: '30' } });
    fireEvent.blur(field);
    expect(screen.getByRole('status').textContent).toContain('Two legs would share both ends. Still 20.0 deg.');
    expect(log.commit).not.toHaveBeenCalled();
  });

  it('stops at a limit that a key would pass, and says so', () => {
    const { field, log } = showGap({ start: 118 });
    press(field, 'PageUp');
    expect(field.value).toBe('120.0');
    expect(log.commit.mock.calls).toEqual([[120]]);
    expect(screen.getByRole('status').textContent).toContain('above the limit of 120.0 deg');
  });

  it('widens the slider for a legal value beyond its travel', () => {
    const { slider } = showGap({ start: 75 });
    expect(slider.max).toBe('100');
    expect(slider.value).toBe('75');
  });

  it('gives an unfinished drag back on Escape', () => {
    const { field, slider, log } = showGap();
    fireEvent.input(slider, { target: { value: '40' } });
    fireEvent.keyDown(slider, { key: 'Escape' });
    expect(log.restore).toHaveBeenCalledTimes(1);
    expect(field.value).toBe('20.0');
    fireEvent.pointerUp(slider);
    expect(log.commit).not.toHaveBeenCalled();
  });

  it('changes nothing when it is only visited', () => {
    const { field, log } = showGap({ start: 20.123456 });
    fireEvent.focus(field);
    fireEvent.blur(field);
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(log.commit).not.toHaveBeenCalled();
  });
});
