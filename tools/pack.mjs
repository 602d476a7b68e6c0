import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle, ENTRIES } from './bundle.mjs';

// What `npm pack` puts into a package, made anew: lib/ with the bundles and lib/types/ with their types. Nothing in
// either needs another package: the one library that stands in our types brings its own types along.

const root = fileURLToPath(new URL('..', import.meta.url));
const lib = join(root, 'lib');
const types = join(lib, 'types');
const zod = dirname(createRequire(import.meta.url).resolve('zod/package.json'));

rmSync(lib, { recursive: true, force: true });
await bundle(root, lib, Object.keys(ENTRIES));
writeTypes();
copyZodTypes();
const strangers = pointTypes();
if (strangers.size > 0) throw new Error(`the types need packages of their own: ${[...strangers].join(', ')}`);

function writeTypes() {
  const settings = join(root, 'tsconfig.json');
  // the compiler reads settings from a file only
  const own = join(root, 'lib', 'tsconfig.json');
  const compilerOptions = {
    noEmit: false,
    declaration: true,
    emitDeclarationOnly: true,
    outDir: types,
    rootDir: join(root, 'src'),
    types: [],
  };
  const include = [join(root, 'src/library/*.ts')];
  writeFileSync(own, JSON.stringify({ extends: settings, compilerOptions, include }));
  execFileSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '-p', own], { stdio: 'inherit' });
  rmSync(own);
}

/** The type files that zod's own index needs, and its licence. */
function copyZodTypes() {
  const waiting = ['index.d.ts'];
  const seen = new Set(waiting);
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    const target = join(types, 'zod', path);
    mkdirSync(dirname(target), { recursive: true });
    copyFileSync(join(zod, path), target);
    for (const [, needed] of readFileSync(target, 'utf8').matchAll(/from\s+["'](\.[^"']+)\.js["']/g)) {
      const next = join(dirname(path), `${needed}.d.ts`);
      if (seen.has(next)) continue;
      seen.add(next);
      waiting.push(next);
    }
  }
  copyFileSync(join(zod, 'LICENSE'), join(types, 'zod/LICENSE'));
}

/** Points our types at each other and at zod's copy by the names they have in the package; returns what is not in it. */
function pointTypes() {
  const missing = new Set();
  for (const path of readdirSync(types, { recursive: true, encoding: 'utf8' })) {
    if (!path.endsWith('.d.ts') || path.startsWith('zod')) continue;
    const file = join(types, path);
    const toZod = relative(dirname(path), 'zod/index.js').split(sep).join('/');
    const text = readFileSync(file, 'utf8').replace(/(from |import\()(['"])([^'"]+)\2/g, (_, before, quote, name) => {
      if (name === 'zod') return `${before}${quote}${toZod.startsWith('.') ? toZod : `./${toZod}`}${quote}`;
      if (!name.startsWith('.')) missing.add(name);
      return `${before}${quote}${name.replace(/\.ts$/, '.js')}${quote}`;
    });
    writeFileSync(file, text);
  }
  return missing;
}
