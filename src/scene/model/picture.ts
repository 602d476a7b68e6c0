import type { Finished, ResultsState } from '../../state/results-store.ts';

/** One surface or cloud of the reach, ready to draw. Lengths in mm, base axes. */
export interface ReachPoints {
  /** xyz of every point. */
  readonly positions: Float32Array;
  /** How many times larger an error in the legs can come out at the tool there; Infinity where singular. */
  readonly magnifications: Float32Array;
  /** Which limit is nearest there: place in LIMIT_NAMES. */
  readonly limits: Uint8Array;
}

/** The boundary of the reach as triangles. */
export interface ReachShell extends ReachPoints {
  /** Outward unit normals, xyz. */
  readonly normals: Float32Array;
  /** Three corners a triangle. */
  readonly indices: Uint32Array;
}

/** What the workers hand over for drawing. */
export interface ReachPicture {
  readonly cloud: ReachPoints;
  readonly shell: ReachShell;
}

/** A picture that carries both drawings. */
export const isDrawable = (picture: object): picture is ReachPicture => 'cloud' in picture && 'shell' in picture;

/** The last picture with what it is of; null before the first. */
export function finishedPicture({ picture }: Pick<ResultsState, 'picture'>): Finished<ReachPicture> | null {
  const { finished } = picture;
  if (!finished || !isDrawable(finished.value)) return null;
  return { subject: finished.subject, value: finished.value };
}
