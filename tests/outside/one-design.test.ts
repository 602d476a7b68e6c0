import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { SIDES } from '../../src/build/parts.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { namesOf } from '../../src/math/record.ts';
import { partsFrom, steady } from '../build/build-cases.ts';
import { READERS } from './readers.ts';

const folder = mkdtempSync(join(tmpdir(), 'legroom-outside-'));
afterAll(() => rmSync(folder, { recursive: true }));

// the readers that this machine has; `npm run outside` names the others and reads many more designs
const here = READERS.filter(({ missing }) => missing() === null);

describe('the steady demo, read by programs of other makers', () => {
  it.each(namesOf(EXPORTERS))('%s', async (id) => {
    const made = await EXPORTERS[id].write(partsFrom(steady()), SIDES, neverStop);
    if (!made.ok) throw new Error(made.fault.message);
    expect(made.value.length).toBeGreaterThan(0);
    const complaints: string[] = [];
    for (const { name, bytes } of made.value) {
      const path = join(folder, name);
      writeFileSync(path, bytes);
      expect(READERS.some(({ endings }) => endings.some((ending) => name.endsWith(`.${ending}`)))).toBe(true);
      for (const { endings, name: reader, read } of here)
        if (endings.some((ending) => name.endsWith(`.${ending}`)))
          complaints.push(...(await read({ path, bytes, volume: null })).map((complaint) => `${reader}: ${complaint}`));
    }
    expect(complaints).toEqual([]);
  });
});
