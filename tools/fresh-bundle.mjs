import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

// Plain JavaScript, and nothing but Node.js until something has to be built: this runs at every start.

/** Files that the bundle depends on beside its sources: the libraries, and how it is made. */
const ALSO = ['package.json', 'package-lock.json', 'tools/bundle.mjs', 'tools/fresh-bundle.mjs'];

/** Bundles that are no longer current are kept so long [ms]: a command that began with one may still load parts of it. */
const KEPT = 24 * 60 * 60 * 1000;

/** The file that names the current bundle and what it was made from. */
const CURRENT = 'current.json';

/**
 * The address of the bundled command line of a checkout, made anew where a source has changed; null where there is no
 * folder to keep it in.
 * @param {string} root the checkout, with a slash at its end
 */
export async function freshBundle(root) {
  const folders = [join(root, 'node_modules/.cache/legroom'), homeFolder(root)];
  for (const folder of folders) {
    const main = currentMain(root, folder);
    if (main !== null) return main;
  }
  for (const folder of folders) {
    if (isOurs(folder)) return await build(root, folder);
  }
  return null;
}

/** For a checkout that may only be read: below the person's own folder, one for each checkout. */
function homeFolder(root) {
  const name = createHash('sha256').update(root).digest('hex').slice(0, 16);
  return join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'legroom', name);
}

/** Whether a folder is there, or could be made, and nobody else can put programs into it. */
function isOurs(folder) {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const probe = join(folder, `.${process.pid}.probe`);
    writeFileSync(probe, '');
    rmSync(probe);
    return trusted(folder);
  } catch {
    return false;
  }
}

/** A folder of this person's (or the superuser's), to which nobody else writes. */
function trusted(folder) {
  if (process.platform === 'win32') return true;
  const { uid, mode } = statSync(folder);
  return (uid === process.getuid?.() || uid === 0) && (mode & 0o022) === 0;
}

/** The current bundle's address, or null when there is none or a file that it was made from has changed. */
function currentMain(root, folder) {
  try {
    const { name, inputs } = JSON.parse(readFileSync(join(folder, CURRENT), 'utf8'));
    if (!trusted(folder)) return null;
    for (const [path, stamp] of inputs) if (stampOf(root, path) !== stamp) return null;
    const main = join(folder, name, 'main.js');
    statSync(main);
    return pathToFileURL(main).href;
  } catch {
    return null;
  }
}

/** Size and time of a file: another content has another stamp. */
function stampOf(root, path) {
  const { size, mtimeMs } = statSync(join(root, path));
  return `${size} ${mtimeMs}`;
}

async function build(root, folder) {
  const { bundle } = await import('./bundle.mjs');
  const beside = join(folder, `.${process.pid}.new`);
  const before = Date.now();
  const sources = await bundle(root, beside, ['main', 'sweep-share']);
  const inputs = [...sources, ...ALSO].map((path) => [path, stampOf(root, path)]);
  // a source that was saved meanwhile may be in the bundle or not: the next start makes it anew
  if (sources.some((path) => statSync(join(root, path)).mtimeMs >= before))
    inputs.push(['changed while it was read', '']);
  const name = createHash('sha256').update(JSON.stringify(inputs)).digest('hex').slice(0, 16);
  try {
    renameSync(beside, join(folder, name));
  } catch {
    // another command was faster
    rmSync(beside, { recursive: true });
  }
  const listed = join(folder, `.${process.pid}.${CURRENT}`);
  writeFileSync(listed, JSON.stringify({ name, inputs }));
  renameSync(listed, join(folder, CURRENT));
  removeOld(folder, name);
  return pathToFileURL(join(folder, name, 'main.js')).href;
}

function removeOld(folder, current) {
  for (const name of readdirSync(folder)) {
    if (name === current || name === CURRENT) continue;
    try {
      if (Date.now() - statSync(join(folder, name)).mtimeMs > KEPT) rmSync(join(folder, name), { recursive: true });
    } catch {
      // another command has taken it away
    }
  }
}
