import { createHash } from 'node:crypto';
import { availableParallelism } from 'node:os';
import { figureOptions } from '../../document/build-inputs.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type DesignFault, fault } from '../../document/faults.ts';
import { readSweep, STANDARD_SWEEP, type SweepDocument, sweepAxes, sweepSize } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { writeDesign } from '../../document/write-design.ts';
import type { Sweep } from '../../explore/sweep.ts';
import { sweepPace } from '../../explore/sweep-pace.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { openBeside } from '../beside.ts';
import { readDesignFile } from '../design-verb.ts';
import type { Io } from '../io.ts';
import { type OutputTarget, outputTarget } from '../output-target.ts';
import { type Outcome, refused, type Verb, type VerbRequest } from '../verb.ts';
import { EXPLORE_FILES, exploreFaults, LARGE, MERGE, OUT, RESUME, SHARD, SPEC, tableKind } from './request.ts';
import { sweepInProcesses } from './sweep-processes.ts';
import type { TableSpan } from './sweep-text.ts';
import { headLines, shardSpan, type TableHead, tableColumns } from './table.ts';
import { mergeTables } from './table-merge.ts';
import { NO_TABLE, resumeTable } from './table-resume.ts';
import { fileSink, outputSink, TableNotWritten } from './table-sink.ts';

/** Sweeps of more layouts than this in one run are asked about first: some minutes of work. */
export const LARGE_SWEEP = 5_000_000;

/** Layouts timed, spread over the sweep, to say how long a large one would take. */
const TIMED_LAYOUTS = 200;

/** A sweep into a table, or the joining of tables. */
export const explore: Verb = {
  files: EXPLORE_FILES,
  options: [SPEC, SHARD, RESUME, LARGE, OUT, MERGE],
  asksForce: true,
  check: exploreFaults,
  async run(request, io) {
    const target = await tableTarget(request);
    if (!target.ok) return refused([target.fault]);
    try {
      return await (request.get(MERGE) ? merge(request, target.value, io) : sweep(request, target.value, io));
    } catch (thrown) {
      if (thrown instanceof TableNotWritten) return refused([thrown.found]);
      throw thrown;
    }
  },
};

/** Where the table is to go, looked at before anything is touched; null for standard output. */
async function tableTarget(request: VerbRequest): Promise<Result<OutputTarget | null, DesignFault>> {
  const out = request.get(OUT);
  if (out === undefined) return ok(null);
  const spec = request.get(SPEC);
  const inputs = spec === undefined ? request.files : [...request.files, spec];
  const replaces = request.force || request.get(RESUME);
  return outputTarget(out, { inputs, replaces, follows: request.force });
}

async function merge(request: VerbRequest, target: OutputTarget | null, io: Io): Promise<Outcome> {
  const merged = await mergeTables(request.files, tableKind(request.get(OUT)));
  if (!merged.ok) return refused([merged.fault]);
  const { layouts, pieces } = merged.value;
  const lines = [`${layouts} layouts joined.`];
  if (!target) {
    for await (const piece of pieces()) await io.out(piece.toString());
    return { exit: 0, lines };
  }
  const file = await openBeside(target);
  if (!file.ok) return refused([file.fault]);
  let found: DesignFault | null = null;
  for await (const piece of pieces()) {
    found = await file.value.write(piece);
    if (found) break;
  }
  found ??= await file.value.commit();
  if (!found) return { exit: 0, lines };
  await file.value.discard();
  return refused([found]);
}

async function sweep(request: VerbRequest, target: OutputTarget | null, io: Io): Promise<Outcome> {
  const inputs = await readInputs(request, io);
  if (!inputs.ok) return refused(inputs.fault);
  const { document, plan } = inputs.value;
  const about = sweepAbout(document, plan);
  if (!about.ok) return refused(about.fault);
  const shard = request.get(SHARD) ?? { number: 1, count: 1 };
  const span = shardSpan(sweepSize(plan), shard.number, shard.count);
  const processes = availableParallelism();
  const layouts = span.to - span.from;
  if (layouts > LARGE_SWEEP && !request.get(LARGE)) {
    return refused([tooLarge(layouts, (layouts * sweepPace(about.value, TIMED_LAYOUTS)) / processes)]);
  }
  const out = request.get(OUT);
  const kind = tableKind(out);
  const head: TableHead = { design: fingerprint(document), sweep: plan, ...span };
  const heads = headLines(kind, head).map((line) => `${line}\n`);
  // a device or a pipe holds no table to go on with
  const goesOn = request.get(RESUME) && target !== null && !target.stream;
  const progress = goesOn ? await resumeTable(target.path, kind, head) : ok(NO_TABLE);
  if (!progress.ok) return refused([progress.fault]);
  const done = progress.value.layouts;
  const sink = target ? await fileSink(target, heads.join(''), progress.value) : outputSink(io);
  if (!target) await sink.write(heads.join(''));
  const rest: TableSpan = { from: span.from + done, to: span.to };
  const table = { sweep: about.value, columns: tableColumns(plan), kind };
  await sweepInProcesses(table, rest, processes, async (text, { to }) => {
    await sink.write(text);
    io.progress('layouts', to - span.from, layouts);
  });
  await sink.close();
  return { exit: 0, lines: [`${layouts} layouts weighed${done > 0 ? `, ${done} of them by an earlier run` : ''}.`] };
}

/** A sweep about a design; refused where {@link sweptDesign} refuses the design. */
export function sweepAbout(document: DesignDocument, plan: SweepDocument): Result<Sweep, readonly DesignFault[]> {
  const design = sweptDesign(document);
  return design.ok
    ? ok({ design: design.value, grid: sweepAxes(plan), options: figureOptions(document, plan) })
    : design;
}

async function readInputs(
  request: VerbRequest,
  io: Io,
): Promise<Result<{ document: DesignDocument; plan: SweepDocument }, readonly DesignFault[]>> {
  const document = await readDesignFile(request.files[0], io);
  if (!document.ok) return document;
  const spec = request.get(SPEC);
  if (spec === undefined) return ok({ document: document.value, plan: STANDARD_SWEEP });
  const text = await io.readFile(spec);
  if (!text.ok) return failed([text.fault]);
  const plan = readSweep(text.value);
  return plan.ok ? ok({ document: document.value, plan: plan.value }) : failed(plan.fault);
}

function tooLarge(layouts: number, seconds: number): DesignFault {
  const hours = seconds / 3600;
  const time = hours < 1 ? `${Math.ceil(seconds / 60)} minutes` : `${hours.toPrecision(2)} hours`;
  const remedy = 'Lower the counts, give --shard i/n to several runs, or add --large to go on.';
  return fault(
    'outOfRange',
    'The sweep',
    `${layouts} layouts, some ${time} on this machine`,
    `at most ${LARGE_SWEEP} unasked`,
    remedy,
  );
}

/** Names a design by its content. */
const fingerprint = (document: DesignDocument): string =>
  createHash('sha256').update(writeDesign(document)).digest('hex').slice(0, 16);
