// @vitest-environment happy-dom
import { describe, expect, it } from 'vitest';
import { commandOf } from '../../src/app/keyboard.ts';
import { themeOnScreen } from '../../src/app/theme.ts';

const press = (
  key: string,
  held: { ctrlKey?: boolean; metaKey?: boolean; shiftKey?: boolean } = {},
  on?: EventTarget,
) => ({
  key,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  target: on ?? document.body,
  ...held,
});

const input = (type: string) => Object.assign(document.createElement('input'), { type });

describe('keys that work anywhere', () => {
  it.each([
    ['undo', press('z', { ctrlKey: true })],
    ['undo', press('z', { metaKey: true })],
    ['redo', press('Z', { ctrlKey: true, shiftKey: true })],
    ['redo', press('y', { ctrlKey: true })],
    ['save', press('s', { metaKey: true })],
    ['saveAs', press('S', { ctrlKey: true, shiftKey: true })],
    ['open', press('o', { ctrlKey: true })],
    ['keys', press('?', { shiftKey: true })],
    ['keys', press('?', { shiftKey: true }, input('range'))],
  ])('%s', (command, event) => {
    expect(commandOf(event)).toBe(command);
  });

  it.each([
    ['a plain letter', press('z')],
    ['? while typing', press('?', { shiftKey: true }, input('text'))],
    ['? while writing a note', press('?', { shiftKey: true }, document.createElement('textarea'))],
    ['another combination', press('p', { ctrlKey: true })],
    ["the browser's own", press('O', { ctrlKey: true, shiftKey: true })],
  ])('nothing for %s', (_, event) => {
    expect(commandOf(event)).toBe(null);
  });
});

describe('the theme on screen', () => {
  it('is the chosen one, or the system’s', () => {
    expect(themeOnScreen('light', true)).toBe('light');
    expect(themeOnScreen('dark', false)).toBe('dark');
    expect(themeOnScreen('system', true)).toBe('dark');
    expect(themeOnScreen('system', false)).toBe('light');
  });
});
