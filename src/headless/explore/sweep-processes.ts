import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type SweepTable, sweepText, type TableSpan } from './sweep-text.ts';

/** Layouts a process is given at a time: some tens of milliseconds of work, so that all end together. */
const LAYOUTS_A_SPAN = 512;

/** Spans computed ahead of the one to be written next, for each process; bounds the memory. */
const SPANS_AHEAD = 8;

/** A span whose process dies is tried this often. */
const TRIES = 3;

/**
 * One process runs on each core: helper threads of the garbage collector would only take it from another. With more room for young
 * objects there is less to collect; a twentieth of a sweep's time together.
 */
const LEAN_COLLECTOR = ['--single-threaded-gc', '--min-semi-space-size=16', '--max-semi-space-size=32'];

/** Whether this runs from its sources: a bundle has the program of the processes beside it, as JavaScript. */
const FROM_SOURCES = import.meta.url.endsWith('.ts');

/** Starts a process that shares a sweep; it reads TypeScript the way the command line itself does. */
export function launchShare(): ChildProcess {
  const program = new URL(FROM_SOURCES ? './sweep-share.ts' : './sweep-share.js', import.meta.url);
  return fork(fileURLToPath(program), {
    execArgv: [...LEAN_COLLECTOR, ...(FROM_SOURCES ? ['--import', import.meta.resolve('tsx')] : [])],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    serialization: 'advanced',
  });
}

/** Called with each finished span's text, in order. */
export type SpanWriter = (text: string, span: TableSpan) => Promise<void>;

/** Spans given to a process at once: it goes on with the next while the text of the last is on its way. */
const SPANS_A_LANE = 2;

/** A process and the spans it has been given, in their order. */
interface Lane {
  readonly worker: ChildProcess;
  readonly spans: number[];
}

/**
 * Computes the spans of a table in several processes and hands their texts over in order. A process that dies is replaced and
 * its span done again; rejects when one span has killed several processes.
 */
export async function sweepInProcesses(
  table: SweepTable,
  whole: TableSpan,
  processes: number,
  write: SpanWriter,
  launch: () => ChildProcess = launchShare,
): Promise<void> {
  const spans = new Spans(whole);
  if (spans.count === 1) {
    // less work than starting a process
    await write(sweepText(table, whole), whole);
    return;
  }
  const sweep = new SharedSweep(table, spans, launch);
  try {
    await sweep.run(processes, write);
  } finally {
    sweep.end();
  }
}

class SharedSweep {
  private readonly lanes = new Set<Lane>();
  private readonly texts = new Map<number, string>();
  private readonly deaths = new Map<number, number>();
  /** Spans of dead processes, to be done again; the rest waits from {@link next} on. */
  private readonly again: number[] = [];
  private next = 0;
  private written = 0;
  private failure: Error | null = null;
  private wake: () => void = () => undefined;

  constructor(
    private readonly table: SweepTable,
    private readonly spans: Spans,
    private readonly launchProcess: () => ChildProcess,
  ) {}

  async run(processes: number, write: SpanWriter): Promise<void> {
    for (let n = 0; n < Math.min(processes, this.spans.count); n++) this.launch();
    while (this.written < this.spans.count) {
      if (this.failure) throw this.failure;
      const text = this.texts.get(this.written);
      if (text === undefined) {
        await new Promise<void>((resolve) => {
          this.wake = resolve;
        });
        continue;
      }
      this.texts.delete(this.written);
      await write(text, this.spans.at(this.written));
      this.written++;
      for (const lane of this.lanes) this.feed(lane);
    }
  }

  end(): void {
    const workers = [...this.lanes].map(({ worker }) => worker);
    this.lanes.clear();
    for (const worker of workers) worker.kill();
  }

  private launch(): void {
    const worker = this.launchProcess();
    const lane: Lane = { worker, spans: [] };
    this.lanes.add(lane);
    worker.on('message', (text) => {
      const span = lane.spans.shift();
      if (span !== undefined) this.texts.set(span, String(text));
      this.feed(lane);
      this.wake();
    });
    worker.on('error', (error) => this.bury(lane, error));
    worker.on('exit', (code, signal) =>
      this.bury(lane, new Error(`a sweep process ended (${signal ?? `code ${code}`})`)),
    );
    worker.send(this.table);
    this.feed(lane);
  }

  /** Gives a process its next spans, unless they are far enough ahead of what is written. */
  private feed(lane: Lane): void {
    while (lane.spans.length < SPANS_A_LANE) {
      const next = this.again.at(0) ?? this.next;
      if (next >= this.spans.count || next > this.written + SPANS_AHEAD * this.lanes.size) return;
      if (this.again.shift() === undefined) this.next++;
      lane.spans.push(next);
      lane.worker.send(this.spans.at(next));
    }
  }

  /** Takes a dead process out and has its span done again. */
  private bury(lane: Lane, error: Error): void {
    if (!this.lanes.delete(lane)) return;
    const [span] = lane.spans;
    if (span === undefined) {
      // an idle process is no loss, unless it was the last
      if (this.lanes.size === 0 && (this.again.length > 0 || this.next < this.spans.count)) this.launch();
      return;
    }
    // the first was being computed; the others had only been given
    const deaths = (this.deaths.get(span) ?? 0) + 1;
    this.deaths.set(span, deaths);
    this.again.unshift(...lane.spans);
    if (deaths >= TRIES) this.failure = error;
    else this.launch();
    this.wake();
  }
}

/** Consecutive pieces of a table, made when asked for: a sweep of 10^11 layouts has more of them than a memory holds. */
class Spans {
  readonly count: number;

  constructor(private readonly whole: TableSpan) {
    this.count = Math.ceil((whole.to - whole.from) / LAYOUTS_A_SPAN);
  }

  at(n: number): TableSpan {
    const from = this.whole.from + n * LAYOUTS_A_SPAN;
    return { from, to: Math.min(this.whole.to, from + LAYOUTS_A_SPAN) };
  }
}
