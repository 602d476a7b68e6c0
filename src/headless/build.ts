import { join } from 'node:path';
import manifest from '../../package.json' with { type: 'json' };
import {
  type BuildChoices,
  firstChoices,
  NUMBER_CHOICES,
  type NumberChoiceName,
  WORD_CHOICES,
} from '../build/choices.ts';
import type { BuildFile } from '../build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../build/exporters.ts';
import { type BuildParts, type NamedPose, partsOf, SIDES } from '../build/parts.ts';
import { designToBuild } from '../document/build-design.ts';
import type { DesignDocument } from '../document/design.ts';
import { fault } from '../document/faults.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { poseFromAngles } from '../kinematics/pose.ts';
import { namesOf, recordOf } from '../math/record.ts';
import { radians } from '../terms/units.ts';
import { ONE_DESIGN, readDesignFile } from './design-verb.ts';
import type { Io } from './io.ts';
import { choice, file, flag, number, type Option, repeated, text } from './option.ts';
import { AT } from './options.ts';
import { reportedWork } from './progress.ts';
import { done, type Outcome, refused, type Verb, type VerbRequest } from './verb.ts';

const IDS = namesOf(EXPORTERS);

const LIST = flag('list');
const SIDE = choice('side', ['base', 'platform', 'both']);
const OUT = file('out', 'DIR');
const POSES = repeated(AT);

const WHAT = text<readonly ExporterId[]>('what', IDS.join(','), {
  read(typed) {
    const asked = typed.split(',').map((word) => word.trim());
    const known = IDS.filter((id) => asked.includes(id));
    return asked.every((word) => IDS.some((id) => id === word)) && known.length > 0 ? known : null;
  },
  limit: `a list of ${IDS.join(', ')}`,
  remedy: 'Write --list for what each is.',
});

const DATE = text<string>('date', 'YYYY-MM-DD', {
  read: (typed) => (isDay(typed) ? typed : null),
  limit: 'a day as YYYY-MM-DD',
  remedy: 'Write --date 2026-01-31.',
});

function isDay(typed: string): boolean {
  const day = new Date(`${typed}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(typed) && Number.isFinite(day.getTime()) && day.toISOString().startsWith(typed);
}

/** What the command line calls a choice: `boltSpacing` is `--bolt-spacing`. */
const dashed = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

const NUMBER_OPTIONS: Readonly<Record<NumberChoiceName, Option<number | undefined>>> = recordOf(
  namesOf(NUMBER_CHOICES),
  (name) => {
    const { unit, min, max, says } = NUMBER_CHOICES[name];
    return number(dashed(name), unit === '' ? 'n' : unit, { min, max, unit, says });
  },
);

const FACES = choice('faces', WORD_CHOICES.faces.among);
const HOLES = choice('holes', WORD_CHOICES.holes.among);
const BOLTS = choice('bolts', WORD_CHOICES.bolts.among);

/** Writes what leaves the program: drawings, tables, solids, models. */
export const build: Verb = {
  files: { ...ONE_DESIGN, least: 0 },
  options: [WHAT, SIDE, OUT, DATE, LIST, POSES, FACES, HOLES, BOLTS, ...Object.values(NUMBER_OPTIONS)],
  asksForce: true,
  check: ({ files, has }) =>
    files.length > 0 || has(LIST)
      ? []
      : [fault('missing', 'FILE', 'missing', ONE_DESIGN.limit, 'Write build FILE, or build --list.')],
  async run(request, io) {
    if (request.get(LIST)) return listed();
    const design = await readDesignFile(request.files[0], io);
    return design.ok ? written(design.value, request, io) : refused(design.fault);
  },
};

/** One JSON object a line: every format, what it is and for what. */
function listed(): Outcome {
  const rows = IDS.map((what) => {
    const { words, says, purpose, ending } = EXPORTERS[what];
    return JSON.stringify({ what, words, purpose, ending, says });
  });
  return done(`${rows.join('\n')}\n`, []);
}

async function written(document: DesignDocument, request: VerbRequest, io: Io): Promise<Outcome> {
  const asked = request.get(WHAT) ?? IDS;
  const side = request.get(SIDE) ?? 'both';
  const sides: readonly PlateName[] = side === 'both' ? SIDES : [side];
  const parts = partsFor(document, request);
  const left: string[] = [];
  const made: { readonly what: ExporterId; readonly file: BuildFile }[] = [];
  for (const what of asked) {
    const files = await EXPORTERS[what].write(parts, sides, reportedWork(io, EXPORTERS[what].words));
    if (files.ok) for (const one of files.value) made.push({ what, file: one });
    else left.push(`${EXPORTERS[what].words}: ${files.fault.message}`);
  }
  const folder = request.get(OUT);
  const rows = made.map(({ what, file: { name, side: of, bytes, warnings } }) =>
    JSON.stringify({ what, side: of, file: join(folder ?? '', name), bytes: bytes.length, warnings }),
  );
  const warnings = [...new Set([...left, ...made.flatMap(({ file: { warnings: found } }) => found)])];
  const outcome = done(
    rows.map((row) => `${row}\n`).join(''),
    warnings,
    made.map(({ file: { name, bytes } }) => ({ name: join(folder ?? '', name), bytes })),
  );
  return folder === undefined ? outcome : { ...outcome, folder };
}

function partsFor(document: DesignDocument, request: VerbRequest): BuildParts {
  const design = designToBuild(document);
  const poses = request.get(POSES).map(
    ([x, y, z, roll, pitch, yaw], n): NamedPose => ({
      name: `pose ${n + 1}`,
      pose: poseFromAngles({
        position: [x, y, z],
        roll: radians(roll),
        pitch: radians(pitch),
        yaw: radians(yaw),
      }),
    }),
  );
  return partsOf(design, {
    choices: chosen(design.mechanism, request),
    date: request.get(DATE) ?? new Date().toISOString().slice(0, 10),
    program: programName(),
    poses,
  });
}

function chosen(mechanism: Mechanism, request: VerbRequest): BuildChoices {
  const first = firstChoices(mechanism);
  return {
    ...first,
    ...recordOf(namesOf(NUMBER_CHOICES), (name) => request.get(NUMBER_OPTIONS[name]) ?? first[name]),
    faces: request.get(FACES) ?? first.faces,
    holes: request.get(HOLES) ?? first.holes,
    bolts: request.get(BOLTS) ?? first.bolts,
  };
}

/** Name and version of this program. */
const programName = (): string => `Legroom ${manifest.version}`;
