import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { PROJECT } from './stage.ts';

/** What the search for a browser may ask of the machine and do to it; tests give another. */
export interface Machine {
  /** The environment variable CHROMIUM_PATH. */
  readonly chosen: string | undefined;
  /** Where browsers of the system and of the test library stand. */
  readonly places: readonly string[];
  /** Whether the system's packages may be installed. */
  readonly mayInstall: boolean;
  /** Whether a program is there and starts. */
  works(path: string): boolean;
  say(line: string): void;
  /** Has the test library fetch its own browser; false when it could not. */
  download(): boolean;
  /** Installs the system's package; false when it could not. */
  installPackage(): boolean;
}

const NAME_IT = 'set CHROMIUM_PATH to the path of another one';

/** The command for a machine on which nothing may be installed from here. */
const BY_HAND = 'npx playwright install --with-deps chromium';

/**
 * Path of a Chromium that starts: that of CHROMIUM_PATH, else one that is there, else one that is installed, after saying so:
 * the test library's own where it can be fetched, the system's package where this process may install it. Throws with the
 * one command that helps when there is none.
 */
export function findChromium(machine: Machine = thisMachine()): string {
  const { chosen, places, works } = machine;
  if (chosen) {
    if (works(chosen)) return chosen;
    throw new Error(`CHROMIUM_PATH names ${chosen}, which does not start. Correct it or leave it out.`);
  }
  const present = places.find(works);
  if (present !== undefined) return present;
  const package_ = machine.mayInstall ? ", or the system's package chromium where that cannot be fetched" : '';
  machine.say(
    `No Chromium found: installing the test library's own (some 150 MB)${package_}; to use another, ${NAME_IT}.`,
  );
  for (const install of [machine.download, ...(machine.mayInstall ? [machine.installPackage] : [])]) {
    const installed = install() ? places.find(works) : undefined;
    if (installed !== undefined) return installed;
  }
  throw new Error(`The browser tests need Chromium. Run ${BY_HAND}, or ${NAME_IT}.`);
}

/** Where Debian and its relatives put it. */
const USUAL_PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser'];

/** A server that does not answer is given up [ms], one try at a time; and the whole download, on the slowest line. */
const NO_ANSWER = 5000;
const WHOLE_DOWNLOAD = 15 * 60 * 1000;

function thisMachine(): Machine {
  const runs = (
    command: string,
    args: readonly string[],
    environment: NodeJS.ProcessEnv,
    timeout?: number,
  ): boolean => {
    const env = { ...process.env, ...environment };
    return spawnSync(command, args, { cwd: PROJECT, stdio: 'inherit', env, timeout }).status === 0;
  };
  const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
  const patience = { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: String(NO_ANSWER) };
  const playwright = 'node_modules/.bin/playwright';
  return {
    chosen: process.env['CHROMIUM_PATH'],
    places: [...USUAL_PLACES, chromium.executablePath()],
    mayInstall: process.getuid?.() === 0 && spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0,
    works: (path) =>
      existsSync(path) && spawnSync(path, ['--version'], { stdio: 'ignore', timeout: 60_000 }).status === 0,
    say: (line) => console.log(line),
    download: () => runs(playwright, ['install', 'chromium', '--no-shell'], patience, WHOLE_DOWNLOAD),
    installPackage: () => runs('apt-get', ['update'], quiet) && runs('apt-get', ['install', '-y', 'chromium'], quiet),
  };
}
