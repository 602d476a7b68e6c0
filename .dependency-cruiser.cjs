/**
 * Which room of src/ may import from which: downhill only, no circles.
 * A room that is missing here may import nothing, so a new room has to be entered before it can be used.
 */
const ground = ['math', 'terms'];
const pure = [...ground, 'kinematics', 'reach', 'task', 'explore', 'motion', 'build'];
const MAY_IMPORT = {
  math: [],
  terms: ['math'],
  kinematics: ground,
  reach: [...ground, 'kinematics'],
  task: [...ground, 'kinematics', 'reach'],
  explore: [...ground, 'kinematics', 'reach', 'task'],
  motion: [...ground, 'kinematics', 'reach', 'task'],
  build: [...ground, 'kinematics', 'reach', 'task'],
  document: [...ground, 'kinematics', 'task'],
  jobs: pure,
  words: [...pure, 'document'],
  state: [...pure, 'document', 'jobs', 'words'],
  ui: [...ground, 'words'],
  scene: [...pure, 'document', 'jobs', 'words', 'state', 'ui'],
  panels: [...pure, 'document', 'jobs', 'words', 'state', 'ui'],
  app: [...pure, 'document', 'jobs', 'words', 'state', 'ui', 'scene', 'panels'],
  headless: [...pure, 'document', 'words'],
  library: [...pure, 'document'],
};
const rooms = Object.keys(MAY_IMPORT);

/*
 * TypeScript 7 has no JavaScript interface, so dependency-cruiser reads our files with swc. It asks swc for TypeScript
 * without JSX, which stops at the first .tsx file; here the flag is added. tests/run/import-rules.test.ts holds that
 * imports in both kinds of file are seen.
 */
const swc = require('@swc/core');
const { parseFileSync } = swc;
swc.parseFileSync = (file, options) => parseFileSync(file, { ...options, tsx: file.endsWith('.tsx') });

const downhill = rooms.map((room) => ({
  name: `${room}-imports-downhill-only`,
  severity: 'error',
  comment: `${room} may import ${MAY_IMPORT[room].join(', ') || 'no other room'}.`,
  from: { path: `^src/${room}/` },
  to: { path: '^src/', pathNot: `^src/(${[room, ...MAY_IMPORT[room]].join('|')})/` },
}));

/**
 * Libraries that src/ may use. package.json has no "dependencies": page, command line and package are bundled, so that who
 * installs the package installs nothing else; only this list tells what leaves with them from what tests and tools use.
 */
const BUNDLED = [
  '@noble/hashes',
  '@fontsource-variable/public-sans',
  '@react-three/fiber',
  'browser-fs-access',
  'comlink',
  'd3-array',
  'd3-contour',
  'd3-scale',
  'd3-scale-chromatic',
  'd3-shape',
  'fastest-levenshtein',
  'fflate',
  'get-nonce',
  'idb',
  'lucide-react',
  'manifold-3d',
  'mathjs',
  'papaparse',
  'radix-ui',
  'react',
  'react-dom',
  'three',
  'workbox-window',
  'zod',
  'zundo',
  'zustand',
];

/** Rooms that run in workers and on the command line: no screen libraries, no browser storage. */
const SCREENLESS = `^src/(${[...pure, 'document', 'jobs', 'words', 'headless', 'library'].join('|')})/`;
const SCREEN_LIBRARIES =
  '(^|/)node_modules/(react|react-dom|three|@react-three|@types/three|zustand|zundo|radix-ui|@radix-ui|lucide-react|idb|browser-fs-access)/';

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...downhill,
    {
      name: 'known-rooms-only',
      severity: 'error',
      comment: 'Every file of src/ stands in a room that is listed at the top of .dependency-cruiser.cjs.',
      from: { path: '^src/', pathNot: `^src/(${rooms.join('|')})/` },
      to: {},
    },
    {
      name: 'no-folder-of-panels-from-another',
      severity: 'error',
      comment: 'What two folders of panels need stands beside them, in src/panels, or in ui or words.',
      from: { path: '^src/panels/([^/]+)/' },
      to: { path: '^src/panels/[^/]+/', pathNot: '^src/panels/$1/' },
    },
    {
      name: 'no-circles',
      severity: 'error',
      comment: 'Two files that need each other are one idea, or hide a third.',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-screen-in-pure-rooms',
      severity: 'error',
      comment: 'Kinematics, documents, jobs and the command line run without a screen.',
      from: { path: SCREENLESS },
      to: { path: SCREEN_LIBRARIES },
    },
    {
      name: 'node-modules-only-in-headless',
      severity: 'error',
      comment: 'Only the command line may touch the file system.',
      from: { path: '^src/', pathNot: '^src/headless/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'bundled-libraries-only',
      severity: 'error',
      comment:
        'What src/ imports is bundled and leaves with it; it stands in BUNDLED at the top of .dependency-cruiser.cjs.',
      from: { path: '^src/' },
      to: {
        dependencyTypes: ['npm', 'npm-dev', 'npm-no-pkg', 'npm-unknown'],
        pathNot: `(^|/)node_modules/(@types|${BUNDLED.join('|')})/`,
      },
    },
    {
      name: 'zod-only-by-document',
      severity: 'error',
      comment: 'document/zod.ts keeps zod from compiling code, which the content policy of the page forbids.',
      from: { path: '^src/', pathNot: '^src/document/zod\\.ts$' },
      to: { path: '(^|/)node_modules/zod/' },
    },
    {
      name: 'resolvable',
      severity: 'error',
      comment: 'An import that leads nowhere.',
      from: { path: '^src/' },
      // Virtual modules exist only while Vite builds.
      to: { couldNotResolve: true, pathNot: '^virtual:' },
    },
    {
      name: 'no-tests-in-src',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|tools)/' },
    },
    {
      name: 'no-orphans',
      severity: 'error',
      comment: 'A file that imports nothing and that nothing imports is dead.',
      from: { orphan: true, path: '^src/', pathNot: '\\.d\\.ts$' },
      to: {},
    },
  ],
  options: {
    parser: 'swc',
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '\\.css$' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'browser', 'module', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.json', '.d.ts'],
    },
    moduleSystems: ['es6'],
    progress: { type: 'none' },
  },
};
