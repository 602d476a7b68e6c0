import { writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { build } from 'vite';

/** What can be bundled: the command line, the processes that share its sweeps, and the rooms of the package. */
const ENTRIES = {
  main: 'src/headless/main.ts',
  'sweep-share': 'src/headless/explore/sweep-share.ts',
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
  const modules = output.output.flatMap((part) => (part.type === 'chunk' ? part.moduleIds : []));
  const paths = new Set(modules.map((id) => relative(root, id).split(sep).join('/')));
  return [...paths].filter((path) => path.startsWith('src/')).sort();
}
