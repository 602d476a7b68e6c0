import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { run } from './stage.ts';

/** Where Debian and its relatives put it. */
const USUAL_PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser'];

const works = (path: string): boolean =>
  existsSync(path) && spawnSync(path, ['--version'], { stdio: 'ignore', timeout: 60_000 }).status === 0;

const mayInstall = (): boolean =>
  process.getuid?.() === 0 && spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0;

/**
 * Path of a Chromium that starts: the environment variable CHROMIUM_PATH, else the usual places, else installed with
 * apt-get where this process may do so. Throws with a remedy when there is none.
 */
export async function findChromium(): Promise<string> {
  const { CHROMIUM_PATH: chosen } = process.env;
  if (chosen) {
    if (works(chosen)) return chosen;
    throw new Error(`CHROMIUM_PATH names ${chosen}, which does not start. Correct it or leave it out.`);
  }
  const present = USUAL_PLACES.find(works);
  if (present) return present;
  if (mayInstall()) {
    console.log('No Chromium found; installing the system package.');
    const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
    if ((await run('apt-get', ['update'], quiet)) === 0) {
      await run('apt-get', ['install', '-y', 'chromium'], quiet);
    }
    const installed = USUAL_PLACES.find(works);
    if (installed) return installed;
  }
  throw new Error(
    'The browser tests need Chromium. Install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to one.',
  );
}
