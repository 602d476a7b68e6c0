import type { VerbRow } from './verb.ts';

/** Every verb, in the order of the help text. */
export const VERBS = {
  check: {
    usage: 'FILE',
    says: 'validates a design and prints it in its normal form; findings at home on standard error',
    load: async () => (await import('./check.ts')).check,
  },
  pose: {
    usage: 'FILE [--at x,y,z,roll,pitch,yaw]',
    says: 'legs, Jacobian, verdict, loosest motion, accuracy, stiffness, forces and clearance at a pose (mm, deg; home if left out)',
    load: async () => (await import('./pose.ts')).pose,
  },
  solve: {
    usage: 'FILE --lengths l1,l2,l3,l4,l5,l6 [--near x,y,z,roll,pitch,yaw] [--all]',
    says: 'the pose that has six leg lengths, near a guess (home if left out), or all poses',
    load: async () => (await import('./solve.ts')).solve,
  },
  reach: {
    usage:
      'FILE [--orientation roll,pitch,yaw] [--tilt-range deg] [--yaw-range deg] [--error 0.005] [--keep quantity=value]... [--floor quantity=value]...',
    says: 'the volume that the tool point reaches at an orientation (deg; that of home if left out), or at all within a range of it',
    load: async () => (await import('./reach.ts')).reach,
  },
  prove: {
    usage: 'FILE --box x,y,z,roll,pitch,yaw [--at x,y,z,roll,pitch,yaw] [--depth 24] [--clearance mm]',
    says: 'whether every pose within these half ranges of a pose (home if left out) is reachable, free of singular poses and clear',
    load: async () => (await import('./prove.ts')).prove,
  },
  task: {
    usage: 'FILE [--keep quantity=value]... [--floor quantity=value]...',
    says: 'whether the platform does what the task of the design asks, by how much it misses, and where it is worst',
    load: async () => (await import('./task.ts')).task,
  },
  move: {
    usage: 'FILE --path P.csv [--law asked|fastest] [--table OUT.csv] [--step s] [--ramp s] [--force]',
    says: 'follows a path in time: leg lengths, speeds, forces and powers, limits passed, singular poses, clearance',
    load: async () => (await import('./move/move.ts')).move,
  },
  explore: {
    usage:
      'FILE [--spec SWEEP.json] [--shard i/n] [--resume] [--large] [--out TABLE.ndjson|TABLE.csv] [--force], or --merge PART... [--out TABLE] [--force]',
    says: 'weighs a grid of layouts about the design and writes a table of them, on all cores',
    load: async () => (await import('./explore/explore.ts')).explore,
  },
  build: {
    usage:
      'FILE [--what dxf,pdf,...] [--side base|platform|both] [--out DIR] [--date YYYY-MM-DD] [--at x,y,z,roll,pitch,yaw]... [--faces above|below|both] [--holes all|used] [--bolts none|1|2|4] [--hole mm] [--edge mm] [--kerf mm] [--bolt-spacing mm] [--block mm] [--ball mm] [--rim deg] [--neck mm] [--standoff mm] [--paper-scale share] [--force], or --list',
    says: 'writes drawings, tables, solids and models of the design (all of them if --what is left out) and a JSON line a file',
    load: async () => (await import('./build.ts')).build,
  },
} as const satisfies Readonly<Record<string, VerbRow>>;

/** The row of a verb, or undefined for any other word. */
export const verbRow = (name: string): VerbRow | undefined => new Map<string, VerbRow>(Object.entries(VERBS)).get(name);

/** Names of all verbs. */
export const verbNames = (): readonly string[] => Object.keys(VERBS);
