/**
 * What a long computation is given: somewhere to say how far it is, and a question it asks now and then.
 * It stays a pure function; whoever runs it (worker, test, command line) decides what the two do.
 */
export interface LongWork {
  /** `done` of `total` equal pieces are finished. */
  report(done: number, total: number): void;
  /** True when the result is no longer wanted; the computation then ends early and says so. */
  shouldStop(): boolean;
}

/** Runs to the end and reports to nobody. */
export const neverStop: LongWork = { report: () => undefined, shouldStop: () => false };
