import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { ShareStart } from './sweep-share.ts';
import { sweepText } from './sweep-text.ts';
import type { TableSpan } from './table.ts';

/** Layouts a process is given at a time: some tens of milliseconds of work, so that all end together. */
const LAYOUTS_A_SPAN = 512;

/** Spans computed ahead of the one to be written next, for each process; bounds the memory. */
const SPANS_AHEAD = 8;

/** A span whose process dies is tried this often. */
const TRIES = 3;

/** Starts a process that shares a sweep; it reads TypeScript the way the command line itself does. */
export const launchShare = (): ChildProcess =>
  fork(fileURLToPath(new URL('./sweep-share.ts', import.meta.url)), {
    execArgv: ['--import', import.meta.resolve('tsx')],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });

/** Called with each finished span's text, in order. */
export type SpanWriter = (text: string, span: TableSpan) => Promise<void>;

/** A process and the span it is busy with. */
interface Lane {
  readonly worker: ChildProcess;
  span: number | null;
}

/**
 * Computes the spans of a table in several processes and hands their texts over in order. A process that dies is replaced and
 * its span done again; rejects when one span has killed several processes.
 */
export async function sweepInProcesses(
  start: ShareStart,
  whole: TableSpan,
  processes: number,
  write: SpanWriter,
  launch: () => ChildProcess = launchShare,
): Promise<void> {
  const spans = spansOf(whole);
  if (spans.length === 1) {
    // less work than starting a process
    await write(sweepText(start, spans[0]), spans[0]);
    return;
  }
  const sweep = new SharedSweep(start, spans, launch);
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
  private readonly waiting: number[];
  private written = 0;
  private failure: Error | null = null;
  private wake: () => void = () => undefined;

  constructor(
    private readonly start: ShareStart,
    private readonly spans: readonly TableSpan[],
    private readonly launchProcess: () => ChildProcess,
  ) {
    this.waiting = spans.map((_, n) => n);
  }

  async run(processes: number, write: SpanWriter): Promise<void> {
    for (let n = 0; n < Math.min(processes, this.spans.length); n++) this.launch();
    while (this.written < this.spans.length) {
      if (this.failure) throw this.failure;
      const text = this.texts.get(this.written);
      if (text === undefined) {
        await new Promise<void>((resolve) => {
          this.wake = resolve;
        });
        continue;
      }
      this.texts.delete(this.written);
      await write(text, this.spans[this.written]);
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
    const lane: Lane = { worker, span: null };
    this.lanes.add(lane);
    worker.on('message', (text) => {
      if (lane.span !== null) this.texts.set(lane.span, String(text));
      lane.span = null;
      this.feed(lane);
      this.wake();
    });
    worker.on('error', (error) => this.bury(lane, error));
    worker.on('exit', (code, signal) =>
      this.bury(lane, new Error(`a sweep process ended (${signal ?? `code ${code}`})`)),
    );
    worker.send(this.start);
    this.feed(lane);
  }

  /** Gives an idle process its next span, unless it is far enough ahead of what is written. */
  private feed(lane: Lane): void {
    if (lane.span !== null) return;
    const next = this.waiting.at(0);
    if (next === undefined || next > this.written + SPANS_AHEAD * this.lanes.size) return;
    this.waiting.shift();
    lane.span = next;
    lane.worker.send(this.spans[next]);
  }

  /** Takes a dead process out and has its span done again. */
  private bury(lane: Lane, error: Error): void {
    if (!this.lanes.delete(lane)) return;
    const { span } = lane;
    if (span === null) {
      // an idle process is no loss, unless it was the last
      if (this.lanes.size === 0 && this.waiting.length > 0) this.launch();
      return;
    }
    const deaths = (this.deaths.get(span) ?? 0) + 1;
    this.deaths.set(span, deaths);
    this.waiting.unshift(span);
    if (deaths >= TRIES) this.failure = error;
    else this.launch();
    this.wake();
  }
}

function spansOf({ from, to }: TableSpan): TableSpan[] {
  const spans: TableSpan[] = [];
  for (let first = from; first < to; first += LAYOUTS_A_SPAN) {
    spans.push({ from: first, to: Math.min(to, first + LAYOUTS_A_SPAN) });
  }
  return spans;
}
