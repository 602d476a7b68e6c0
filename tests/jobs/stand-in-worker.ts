import { expose } from 'comlink';
import type { WorkerLike } from '../../src/jobs/worker-host.ts';

/** A message channel in a worker's clothes: the far end answers with an api, and it can be made to die or to fall silent. */
export class StandInWorker extends EventTarget implements WorkerLike {
  readonly #channel = new MessageChannel();
  silent = false;
  terminated = false;

  constructor(api: unknown) {
    super();
    expose(api, this.#channel.port2);
    this.#channel.port1.onmessage = ({ data }) => {
      if (!this.silent) this.dispatchEvent(new MessageEvent('message', { data }));
    };
  }

  postMessage(message: unknown, moved: Transferable[] = []): void {
    if (!this.terminated) this.#channel.port1.postMessage(message, moved);
  }

  terminate(): void {
    this.terminated = true;
    this.#channel.port1.close();
  }

  die(): void {
    this.dispatchEvent(new Event('error', { cancelable: true }));
  }
}
