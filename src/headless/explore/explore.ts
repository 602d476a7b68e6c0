import { createHash } from 'node:crypto';
import { availableParallelism } from 'node:os';
import type { DesignDocument } from '../../document/design.ts';
import { type DesignFault, fault } from '../../document/faults.ts';
import { readDesign } from '../../document/read-design.ts';
import {
  readSweep,
  STANDARD_SWEEP,
  type SweepDocument,
  sweepAxes,
  sweepOptions,
  sweepSize,
} from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { writeDesign } from '../../document/write-design.ts';
import type { Sweep } from '../../explore/sweep.ts';
import { sweepPace } from '../../explore/sweep-pace.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { type Io, STANDARD_INPUT } from '../io.ts';
import { type ExitCode, type Outcome, refused } from '../verb.ts';
import { type ExploreRequest, readExploreRequest } from './request.ts';
import { sweepInProcesses } from './sweep-processes.ts';
import type { TableSpan } from './sweep-text.ts';
import { headLine, shardSpan, type TableHead, tableColumns } from './table.ts';
import { mergeTables, resumeTable } from './table-file.ts';
import { openSink, TableNotWritten } from './table-sink.ts';

/** Sweeps of more layouts than this in one run are asked about first: some minutes of work. */
export const LARGE_SWEEP = 5_000_000;

/** Layouts timed, spread over the sweep, to say how long a large one would take. */
const TIMED_LAYOUTS = 200;

/** Runs `explore ...`: a sweep into a table, or the joining of tables. */
export async function explore(argv: readonly string[], io: Io): Promise<ExitCode> {
  const request = readExploreRequest(argv);
  if (!request.ok) return report(refused(request.fault), io);
  const { value } = request;
  try {
    return report(value.kind === 'merge' ? await merge(value, io) : await sweep(value, io), io);
  } catch (thrown) {
    if (thrown instanceof TableNotWritten) return report(refused([thrown.found]), io);
    throw thrown;
  }
}

function report({ exit, lines }: Outcome, io: Io): ExitCode {
  for (const line of lines) io.err(`${line}\n`);
  return exit;
}

async function merge({ parts, out, table }: Extract<ExploreRequest, { kind: 'merge' }>, io: Io): Promise<Outcome> {
  const sink = await openSink(out, false, io);
  const merged = await mergeTables(parts, table, sink.write);
  await sink.close();
  return merged.ok ? { exit: 0, lines: [`${merged.value.layouts} layouts joined.`] } : refused(merged.fault);
}

async function sweep(request: Extract<ExploreRequest, { kind: 'sweep' }>, io: Io): Promise<Outcome> {
  const inputs = await readInputs(request, io);
  if (!inputs.ok) return refused(inputs.fault);
  const { document, plan } = inputs.value;
  const about = sweepAbout(document, plan);
  if (!about.ok) return refused(about.fault);
  const span = shardSpan(sweepSize(plan), request.shard.number, request.shard.count);
  const processes = availableParallelism();
  const layouts = span.to - span.from;
  if (layouts > LARGE_SWEEP && !request.large) {
    return refused([tooLarge(layouts, (layouts * sweepPace(about.value, TIMED_LAYOUTS)) / processes)]);
  }
  const head: TableHead = { design: fingerprint(document), sweep: plan, ...span };
  const progress =
    request.resume && request.out ? await resumeTable(request.out, request.table, head) : ok({ layouts: 0 });
  if (!progress.ok) return refused([progress.fault]);
  const done = progress.value.layouts;
  const sink = await openSink(request.out, done > 0, io);
  if (done === 0) await sink.write(headLine(request.table, head));
  const rest: TableSpan = { from: span.from + done, to: span.to };
  const table = { sweep: about.value, columns: tableColumns(plan), kind: request.table };
  await sweepInProcesses(table, rest, processes, (text) => sink.write(text));
  await sink.close();
  return { exit: 0, lines: [`${layouts} layouts weighed${done > 0 ? `, ${done} of them by an earlier run` : ''}.`] };
}

/** A sweep about a design; refused where {@link sweptDesign} refuses the design. */
export function sweepAbout(document: DesignDocument, plan: SweepDocument): Result<Sweep, readonly DesignFault[]> {
  const design = sweptDesign(document);
  return design.ok ? ok({ design: design.value, grid: sweepAxes(plan), options: sweepOptions(plan) }) : design;
}

async function readInputs(
  { design, spec }: { readonly design: string; readonly spec: string | null },
  io: Io,
): Promise<Result<{ document: DesignDocument; plan: SweepDocument }, readonly DesignFault[]>> {
  const bytes = await (design === STANDARD_INPUT ? io.readStandardInput() : io.readFile(design));
  if (!bytes.ok) return failed([bytes.fault]);
  const document = readDesign(bytes.value);
  if (!document.ok) return failed(document.fault);
  if (spec === null) return ok({ document: document.value, plan: STANDARD_SWEEP });
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
