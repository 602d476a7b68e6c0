/** A picture may lag this long behind a moving slider before it is drawn as stale [ms]; shorter only flickers. */
export const STALE_DELAY = 350;

/** Tells when a picture has been out of date for longer than {@link STALE_DELAY}. */
export class Staleness {
  stale = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private subject: unknown = null;
  private readonly onStale: () => void;

  constructor(onStale: () => void) {
    this.onStale = onStale;
  }

  /** @param subject what the picture on screen is of; a newer one, even if late again, starts the wait anew */
  follow(current: boolean, subject: unknown): void {
    if (current) {
      this.stop();
      this.stale = false;
    } else if (subject !== this.subject) {
      this.stop();
      this.stale = false;
      this.start();
    } else if (!this.stale && this.timer === undefined) {
      this.start();
    }
    this.subject = subject;
  }

  stop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  private start(): void {
    this.timer = setTimeout(() => {
      this.timer = undefined;
      this.stale = true;
      this.onStale();
    }, STALE_DELAY);
  }
}
