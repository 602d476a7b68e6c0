import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createNoticesStore, notify } from '../../src/state/session/notices-store.ts';
import { namedAsShown, shownName } from '../../src/words/shown-name.ts';

// the property Bidi_Control of the Unicode Character Database, PropList.txt, from memory; the engine's own table agrees
const BIDI_CONTROLS = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code)).filter((sign) =>
  /\p{Bidi_Control}/u.test(sign),
);

it('every character that turns the reading direction is shown by its number', () => {
  expect(BIDI_CONTROLS).toHaveLength(12);
  for (const sign of BIDI_CONTROLS) {
    const code = sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
    expect(shownName(`a${sign}b`)).toBe(`a[U+${code}]b`);
  }
  expect(shownName('Wippe Nr. 2 · déjà vu 平台 مرحبا')).toBe('Wippe Nr. 2 · déjà vu 平台 مرحبا');
});

it('a name that is edited where it is shown stays the same name (seed 16)', () => {
  const names = fc.array(fc.oneof(fc.constantFrom(...BIDI_CONTROLS), fc.string()), { maxLength: 12 });
  fc.assert(
    fc.property(names, (parts) => {
      const name = parts.join('');
      expect(shownName(name)).not.toMatch(/\p{Bidi_Control}/u);
      expect(namedAsShown(shownName(name))).toBe(name);
    }),
    { seed: 16 },
  );
});

it('notices show names so', () => {
  const notices = createNoticesStore();
  notify(notices, 'Opened \u202enosj.exe. Undo brings the former design back.');
  expect(notices.getState().announcement).toBe('Opened [U+202E]nosj.exe. Undo brings the former design back.');
});
