import type { JobOutcome } from '../../jobs/outcome.ts';
import type { Outcome, ResultsStore } from './results-store.ts';

/** Writes one kind of answers in the order in which they were asked for; late ones are dropped. */
export class ResultSlot<Value, Subject> {
  readonly #read: () => Outcome<Value, Subject>;
  readonly #write: (outcome: Outcome<Value, Subject>) => void;
  #asked = 0;
  #shown = 0;

  constructor(read: () => Outcome<Value, Subject>, write: (outcome: Outcome<Value, Subject>) => void) {
    this.#read = read;
    this.#write = write;
  }

  /** Says that what is shown is about to be replaced. */
  expect(): void {
    this.#asked += 1;
    if (!this.#read().working) this.#write({ ...this.#read(), working: true });
  }

  /** Shows an answer when it comes, unless a newer one is on screen by then. */
  await(subject: Subject, answer: Promise<JobOutcome<Value>>): void {
    this.expect();
    const turn = this.#asked;
    void answer.then((outcome) => this.#show(turn, subject, outcome));
  }

  #show(turn: number, subject: Subject, outcome: JobOutcome<Value>): void {
    if (outcome.kind === 'cancelled' || turn < this.#shown) return;
    this.#shown = turn;
    const working = turn !== this.#asked;
    const { finished } = this.#read();
    if (outcome.kind === 'failed') this.#write({ finished, working, failure: outcome.reason });
    else this.#write({ finished: { subject, value: outcome.value }, working, failure: null });
  }
}

/** A slot for each kind of result. */
export const resultSlots = (results: ResultsStore) => ({
  summary: new ResultSlot(
    () => results.getState().summary,
    (summary) => results.setState({ summary }),
  ),
  picture: new ResultSlot(
    () => results.getState().picture,
    (picture) => results.setState({ picture }),
  ),
  tilted: new ResultSlot(
    () => results.getState().tilted,
    (tilted) => results.setState({ tilted }),
  ),
  pinned: new ResultSlot(
    () => results.getState().pinned,
    (pinned) => results.setState({ pinned }),
  ),
});
