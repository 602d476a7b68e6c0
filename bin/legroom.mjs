#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

// The command line. In a package it is one bundle, made when the package was. In a checkout it is bundled at first use
// and again when a source changes: started from its hundreds of sources it takes a second longer.

const root = fileURLToPath(new URL('..', import.meta.url));
const checkout = existsSync(`${root}src/headless/main.ts`);

const { INIT_CWD, npm_lifecycle_event } = process.env;

/** Where the command line is to be loaded from. */
async function findMain() {
  if (!checkout) return new URL('../lib/main.js', import.meta.url).href;
  const { freshBundle } = await import('../tools/fresh-bundle.mjs');
  const bundle = await freshBundle(root);
  if (bundle !== null) return bundle;
  // nowhere to keep a bundle: from the sources, slower and the same
  const { register } = await import('tsx/esm/api');
  register();
  return new URL('../src/headless/main.ts', import.meta.url).href;
}

const main = await findMain();
// npm runs its scripts in the folder of package.json; paths are meant from where the person stands
if (checkout && npm_lifecycle_event === 'legroom' && INIT_CWD) process.chdir(INIT_CWD);
await import(main);
