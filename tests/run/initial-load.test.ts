import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { seededRandom } from '../../src/math/random.ts';
import { faultOfInitialLoad, initialLoad, MOST_INITIAL_KB } from './initial-load.ts';

const folder = mkdtempSync(join(tmpdir(), 'initial-load-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Bytes that cannot be packed, so that their number is known beforehand (seed 5). */
function noise(bytes: number): Uint8Array {
  const random = seededRandom(5);
  return Uint8Array.from({ length: bytes }, () => Math.floor(256 * random()));
}

it('the first load is what the page names, each file once, and too much of it is a fault', () => {
  vi.spyOn(console, 'log').mockImplementation(() => undefined);
  mkdirSync(join(folder, 'assets'));
  writeFileSync(
    join(folder, 'index.html'),
    '<script type="module" src="./assets/a.js"></script><link rel="modulepreload" href="./assets/b.js">' +
      '<link rel="modulepreload" href="./assets/b.js"><link rel="stylesheet" href="./assets/c.css">',
  );
  const sizes = { 'a.js': 200_000, 'b.js': 150_000, 'c.css': 20_000, 'later.js': 900_000 };
  for (const [name, bytes] of Object.entries(sizes)) writeFileSync(join(folder, 'assets', name), noise(bytes));
  const load = initialLoad(folder);
  expect(load).toBeGreaterThan(370_000);
  expect(load).toBeLessThan(372_000);
  expect(faultOfInitialLoad(folder)).toBeUndefined();
  writeFileSync(join(folder, 'assets', 'c.css'), noise(1000 * MOST_INITIAL_KB));
  expect(faultOfInitialLoad(folder)).toContain('before its first view');
});
