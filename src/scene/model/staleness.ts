/** A picture may lag this long behind a moving slider before it is drawn as stale [ms]; shorter only flickers. */
export const STALE_DELAY = 350;

/** Tells when a picture has been out of date for longer than {@link STALE_DELAY}. */
export class Staleness {
  private isStale = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private subject: unknown = null;
  private readonly onChange: (stale: boolean) => void;

  constructor(onChange: (stale: boolean) => void) {
    this.onChange = onChange;
  }

  get stale(): boolean {
    return this.isStale;
  }

  /** @param subject what the picture on screen is of; a newer one, even if late again, starts the wait anew */
  follow(current: boolean, subject: unknown): void {
    const newer = subject !== this.subject;
    this.subject = subject;
    if (current || newer) {
      this.stop();
      this.set(false);
    }
    if (!current && !this.isStale) this.timer ??= setTimeout(() => this.set(true), STALE_DELAY);
  }

  stop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  private set(stale: boolean): void {
    this.timer = undefined;
    if (stale === this.isStale) return;
    this.isStale = stale;
    this.onChange(stale);
  }
}
