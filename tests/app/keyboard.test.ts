// @vitest-environment happy-dom
import { describe, expect, it } from 'vitest';
import { COMMAND_KEYS, commandOf } from '../../src/app/keyboard.ts';
import { KEY_GROUPS } from '../../src/app/keys.ts';
import { toRegion } from '../../src/app/regions.ts';
import { themeOnScreen } from '../../src/app/theme.ts';
import { keyRows } from '../../src/ui/key-rows.ts';

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
    ['nextRegion', press('F6')],
    ['formerRegion', press('F6', { shiftKey: true })],
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

describe('the list of keys', () => {
  const rows = (title: string) => KEY_GROUPS.find((group) => group.title === title)?.rows ?? [];

  it('is made from what is bound: taking a key of a command away takes it out of the list', () => {
    const listed = rows('Anywhere').flatMap(({ keys }) => keys);
    for (const { key, ...held } of COMMAND_KEYS) {
      const mod = 'mod' in held;
      const shift = 'shift' in held;
      expect(commandOf(press(key, { ctrlKey: mod, shiftKey: shift }))).toBe(held.command);
      expect(listed).toContain(
        `${mod ? 'mod+' : ''}${shift ? 'shift+' : ''}${key.length === 1 ? key.toUpperCase() : key}`,
      );
    }
    expect(keyRows(COMMAND_KEYS.slice(1)).map(({ does }) => does)).not.toContain('Undo');
  });

  it('joins keys that do the same, and leaves out those that only stand in for another', () => {
    expect(rows('While the 3D view has the focus')).toContainEqual({
      does: 'Isometric, top, front, right',
      keys: ['1', '2', '3', '4'],
    });
    expect(rows('While the 3D view has the focus')).toContainEqual({ does: 'Nearer', keys: ['+'] });
    const moves = rows('On a slider or number field, those that move the platform included');
    expect(moves.slice(0, 2)).toEqual([
      { does: 'One step up or down', keys: ['↑', '↓'] },
      { does: 'A tenth of a step', keys: ['shift+↑', 'shift+↓'] },
    ]);
  });
});

describe('the next part of the page', () => {
  it('is reached by a key, round and round, past parts without a control', () => {
    document.body.innerHTML =
      '<div data-place="x"><header><button id="a"></button></header><section><p></p></section><main><button disabled></button>' +
      '<button id="b"></button></main><section><input id="c"></section></div>';
    const at = () => document.activeElement?.id;
    const reached = [1, 1, 1, 1, -1, -1].map((step) => {
      toRegion(step === 1 ? 1 : -1);
      return at();
    });
    expect(reached).toEqual(['a', 'b', 'c', 'a', 'c', 'b']);
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
