import type { DesignDocument } from '../../document/design.ts';
import type { ReachPicture, ReachSurface } from '../../jobs/reach-picture.ts';
import type { Finished } from '../../state/reach/results-store.ts';

/** Keeps the shell of the pinned design after the picture on screen has moved on to other designs. */
export class PinnedShell {
  private pinned: DesignDocument | null = null;
  private kept: ReachSurface | null = null;

  /** The shell to draw as a ghost; null while none was ever computed for the pinned design. */
  follow(pinned: DesignDocument | null, picture: Finished<ReachPicture> | null): ReachSurface | null {
    if (pinned !== this.pinned) {
      this.pinned = pinned;
      this.kept = null;
    }
    if (pinned && picture?.subject.document === pinned) this.kept = picture.value.shell;
    return this.kept;
  }
}
