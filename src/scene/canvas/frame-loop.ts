/** Draws when asked to, once a screen frame at most, and otherwise not at all. */
export class FrameLoop {
  readonly #draw: () => void;
  #asked: number | null = null;
  #stopped = false;

  constructor(draw: () => void) {
    this.#draw = draw;
  }

  /** Asks for one frame; asked while one is drawn, for the next. */
  readonly invalidate = (): void => {
    if (this.#stopped) return;
    this.#asked ??= requestAnimationFrame(() => {
      this.#asked = null;
      this.#draw();
    });
  };

  stop(): void {
    this.#stopped = true;
    if (this.#asked !== null) cancelAnimationFrame(this.#asked);
  }
}
