import type { Browser, Page } from '@playwright/test';

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly dur?: number;
  /** Processor time of the thread within the event [us]. */
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/** One task of the page's main thread [ms]: by the clock, and as processor time. */
export interface MainThreadTask {
  readonly clock: number;
  readonly processor: number;
}

/**
 * Notes every task of the page's main thread while something happens. The clock counts as well what other programs took from the
 * thread on a busy machine; the processor time is what the page itself asked for.
 */
export async function mainThreadTasks(
  browser: Browser,
  page: Page,
  during: () => Promise<void>,
): Promise<readonly MainThreadTask[]> {
  await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline'] });
  await during();
  const { traceEvents }: { readonly traceEvents: readonly TraceEvent[] } = JSON.parse(
    (await browser.stopTracing()).toString('utf8'),
  );
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const main = new Set(
    traceEvents.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(thread),
  );
  return traceEvents.flatMap((event) =>
    event.name === 'RunTask' && main.has(thread(event)) && event.dur !== undefined && event.tdur !== undefined
      ? [{ clock: event.dur / 1000, processor: event.tdur / 1000 }]
      : [],
  );
}
