import type { LongWork } from '../math/long-work.ts';
import type { Io } from './io.ts';

/** A line that says how far long work is, and is taken away before anything else is said. */
export interface ProgressLine {
  show(words: string, done: number, total: number): void;
  clear(): void;
}

/** Where it is written: standard error. */
interface Screen {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

/** Between two looks of the line [ms]: as often as can be read. */
const EVERY = 200;

/** To the start of the line and all of it empty (ECMA-48: CR, and EL with parameter 2). */
const EMPTY_LINE = '\r\x1b[2K';

/** A line on a terminal; nothing anywhere else, so that files and pipes hold messages alone. */
export function progressLine(screen: Screen, now: () => number = () => performance.now()): ProgressLine {
  let shownAt = Number.NEGATIVE_INFINITY;
  let shown = false;
  return {
    show(words, done, total) {
      if (!screen.isTTY || now() - shownAt < EVERY) return;
      shownAt = now();
      shown = true;
      const share = total > 0 ? Math.floor((100 * done) / total) : 0;
      screen.write(`${EMPTY_LINE}${words}: ${done} of ${total} (${share} %)`);
    },
    clear() {
      if (shown) screen.write(EMPTY_LINE);
      shown = false;
    },
  };
}

/** Long work that says on the command line how far it is, and that nobody stops but with the whole command. */
export const reportedWork = (io: Io, words: string): LongWork => ({
  report: (done, total) => io.progress(words, done, total),
  shouldStop: () => false,
});
