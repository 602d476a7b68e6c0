import { copyFileSync, existsSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { build } from 'vite';

/** What can be bundled: the command line, the processes that share its sweeps, and the rooms of the package. */
export const ENTRIES = {
  main: 'src/headless/main.ts',
  'sweep-share': 'src/headless/explore/sweep-share.ts',
  document: 'src/library/document.ts',
  kinematics: 'src/library/kinematics.ts',
  reach: 'src/library/reach.ts',
  explore: 'src/library/explore.ts',
};

/**
 * Bundles entries for Node.js into a folder, with every library they use. Parts that are loaded when needed are files of
 * their own, beside the entries: a process that shares a sweep is found there.
 * @param {string} root the checkout
 * @param {string} folder where it goes
 * @param {readonly (keyof typeof ENTRIES)[]} entries
 * @returns the sources that went in, as paths from the root
 */
export async function bundle(root, folder, entries) {
  const output = await build({
    root,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: true,
      outDir: folder,
      emptyOutDir: true,
      // names as they are in the sources, for whoever reads a stack
      minify: false,
      target: 'node20',
      rolldownOptions: {
        input: Object.fromEntries(entries.map((name) => [name, join(root, ENTRIES[name])])),
        output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
      },
    },
  });
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }\n');
  const chunks = output.output.filter((part) => part.type === 'chunk');
  for (const chunk of chunks) copyProgramFiles(chunk, folder);
  const modules = chunks.flatMap((chunk) => chunk.moduleIds);
  const paths = new Set(modules.map((id) => relative(root, id).split(sep).join('/')));
  return [...paths].filter((path) => path.startsWith('src/')).sort();
}

/** Compiled programs (WebAssembly) that a library looks for beside itself. */
function copyProgramFiles({ code, moduleIds }, folder) {
  for (const [, name] of code.matchAll(/new URL\(["']([\w-]+\.wasm)["'], *import\.meta\.url\)/g)) {
    const owner = moduleIds.map((id) => join(dirname(id), name)).find((file) => existsSync(file));
    if (owner === undefined) throw new Error(`${name} stands beside none of the sources that look for it`);
    copyFileSync(owner, join(folder, name));
  }
}
