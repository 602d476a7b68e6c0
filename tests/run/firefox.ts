/**
 * Path of a Firefox that starts, for the short run in a second browser: the environment variable FIREFOX_PATH, else the
 * usual places; null where there is none. Run by itself it drives the production build in dist/.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { run } from './stage.ts';

/** Where Debian and its relatives put it. */
const USUAL_PLACES = ['/usr/bin/firefox-esr', '/usr/bin/firefox'];

const works = (path: string): boolean =>
  existsSync(path) && spawnSync(path, ['--version'], { stdio: 'ignore', timeout: 60_000 }).status === 0;

export function findFirefox(): string | null {
  const { FIREFOX_PATH: chosen } = process.env;
  if (chosen) return works(chosen) ? chosen : null;
  return USUAL_PLACES.find(works) ?? null;
}

export const NO_FIREFOX =
  'There is no Firefox here, so the second browser was not tried (Debian: apt-get install firefox-esr, or set FIREFOX_PATH).';

if (process.argv[1]?.endsWith('firefox.ts')) {
  const path = findFirefox();
  if (path === null) {
    console.error(NO_FIREFOX);
    process.exitCode = 1;
  } else {
    const args = ['run', '--config', 'tests/firefox/vitest.config.ts', ...process.argv.slice(2)];
    process.exitCode = await run('node_modules/.bin/vitest', args, { FIREFOX_PATH: path });
  }
}
