import { Worker } from 'node:worker_threads';
import type { ThreadStart } from './sweep-thread.ts';
import type { TableSpan } from './table.ts';

/** Layouts a thread is given at a time: some tens of milliseconds of work, so that all end together. */
const LAYOUTS_A_SPAN = 512;

/** Spans computed ahead of the one to be written next, for each thread; bounds the memory. */
const SPANS_AHEAD = 8;

/** A span whose thread dies is tried again this often. */
const TRIES = 3;

/** Called with each finished span's text, in order. */
export type SpanWriter = (text: string, span: TableSpan) => void | Promise<void>;

/**
 * Computes the spans of a table on several threads and hands their texts over in order. A thread that dies is replaced and
 * its span done again; rejects when the same span kills several.
 */
export async function sweepOnThreads(
  start: ThreadStart,
  whole: TableSpan,
  threads: number,
  write: SpanWriter,
): Promise<void> {
  const spans = spansOf(whole);
  const done = new Map<number, string>();
  const tries = new Map<number, number>();
  const waiting = spans.map((_, n) => n);
  let written = 0;
  let wake = (): void => undefined;
  let failure: unknown = null;
  const running = new Set<Worker>();

  const feed = (worker: Worker, busyWith: { span: number | null }): void => {
    const next = waiting.at(0);
    if (next === undefined || next > written + SPANS_AHEAD * threads) {
      busyWith.span = null;
      return;
    }
    waiting.shift();
    busyWith.span = next;
    worker.postMessage(spans[next]);
  };
  const idle: (() => void)[] = [];
  const launch = (): void => {
    const worker = new Worker(new URL('./sweep-thread.ts', import.meta.url), {
      workerData: start,
      execArgv: ['--import', 'tsx'],
    });
    const busyWith: { span: number | null } = { span: null };
    const more = () => feed(worker, busyWith);
    running.add(worker);
    idle.push(more);
    worker.on('message', ({ text }: { text: string }) => {
      if (busyWith.span !== null) done.set(busyWith.span, text);
      busyWith.span = null;
      more();
      wake();
    });
    worker.on('error', (error) => {
      running.delete(worker);
      idle.splice(idle.indexOf(more), 1);
      const lost = busyWith.span;
      const count = lost === null ? TRIES : (tries.get(lost) ?? 0) + 1;
      if (count >= TRIES) failure = error;
      else if (lost !== null) {
        tries.set(lost, count);
        waiting.unshift(lost);
        launch();
      }
      wake();
    });
    more();
  };
  for (let n = 0; n < Math.min(threads, spans.length); n++) launch();
  try {
    while (written < spans.length && failure === null) {
      const text = done.get(written);
      if (text === undefined) {
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
        continue;
      }
      done.delete(written);
      await write(text, spans[written]);
      written++;
      // threads that ran too far ahead may go on
      for (const more of idle) more();
    }
  } finally {
    await Promise.all([...running].map((worker) => worker.terminate()));
  }
  if (failure !== null) throw failure;
}

function spansOf({ from, to }: TableSpan): TableSpan[] {
  const spans: TableSpan[] = [];
  for (let first = from; first < to; first += LAYOUTS_A_SPAN) {
    spans.push({ from: first, to: Math.min(to, first + LAYOUTS_A_SPAN) });
  }
  return spans;
}
