/** Time spent on something that can be interrupted. */
export class Stopwatch {
  readonly #now: () => number;
  #since: number | null = null;
  #before = 0;

  /** @param now present time [ms] */
  constructor(now: () => number) {
    this.#now = now;
  }

  start(): void {
    this.#before = 1000 * this.seconds;
    this.#since = this.#now();
  }

  stop(): void {
    this.#before = 1000 * this.seconds;
    this.#since = null;
  }

  reset(): void {
    this.#before = 0;
    this.#since = null;
  }

  /** Time between starts and stops so far [s]. */
  get seconds(): number {
    return (this.#before + (this.#since === null ? 0 : this.#now() - this.#since)) / 1000;
  }
}
