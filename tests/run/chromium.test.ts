import { expect, it } from 'vitest';
import { findChromium, type Machine } from './chromium.ts';

const SYSTEM = '/system/chromium';
const OWN = '/library/chrome';

/** A machine without a browser, on which what is done is noted in order; `gains` are browsers that an installation brings. */
function machine(parts: Partial<Machine>, gains: { download?: string; installPackage?: string } = {}) {
  const done: string[] = [];
  const there = new Set<string>();
  const install = (name: 'download' | 'installPackage') => (): boolean => {
    done.push(name);
    const gain = gains[name];
    if (gain !== undefined) there.add(gain);
    return gain !== undefined;
  };
  const all: Machine = {
    chosen: undefined,
    places: [SYSTEM, OWN],
    mayInstall: true,
    works: (path) => there.has(path),
    say: (line) => done.push(line),
    download: install('download'),
    installPackage: install('installPackage'),
    ...parts,
  };
  return { all, done };
}

const FIRST = /^No Chromium found: installing the test library's own .*CHROMIUM_PATH to the path of another one\.$/;

it('takes the browser that is named, or one that is there, and then says and installs nothing', () => {
  for (const [chosen, works] of [
    ['/mine', '/mine'],
    [undefined, SYSTEM],
    [undefined, OWN],
  ]) {
    const { all, done } = machine({ chosen, works: (path) => path === works });
    expect(findChromium(all)).toBe(works);
    expect(done).toEqual([]);
  }
});

it('refuses a named one that does not start, and installs nothing instead', () => {
  const { all, done } = machine({ chosen: '/broken' });
  expect(() => findChromium(all)).toThrow(/^CHROMIUM_PATH names \/broken, which does not start\./);
  expect(done).toEqual([]);
});

it("says in one line what it will install, then fetches the test library's own", () => {
  const { all, done } = machine({}, { download: OWN });
  expect(findChromium(all)).toBe(OWN);
  expect(done).toEqual([expect.stringMatching(FIRST), 'download']);
  expect(done[0]).toContain("or the system's package chromium where that cannot be fetched");
});

it("installs the system's package where the own one cannot be fetched, or does not start", () => {
  for (const gains of [{ installPackage: SYSTEM }, { download: '/elsewhere', installPackage: SYSTEM }]) {
    const { all, done } = machine({}, gains);
    expect(findChromium(all)).toBe(SYSTEM);
    expect(done).toEqual([expect.stringMatching(FIRST), 'download', 'installPackage']);
  }
});

it('touches no system package without the right to, and then names the one command', () => {
  const { all, done } = machine({ mayInstall: false }, { installPackage: SYSTEM });
  const words =
    /^The browser tests need Chromium\. Run npx playwright install --with-deps chromium, or set CHROMIUM_PATH/;
  expect(() => findChromium(all)).toThrow(words);
  expect(done).toEqual([expect.stringMatching(FIRST), 'download']);
  expect(done[0]).not.toContain('package');
});
