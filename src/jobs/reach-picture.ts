import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';
import { type ReachCloud, reachCloud } from '../reach/shell/cloud.ts';
import { reachShell } from '../reach/shell/shell.ts';

/** Points of the reach, ready to draw. Lengths in mm, base axes. */
export interface ReachPoints {
  /** xyz of every point. */
  readonly positions: Float64Array;
  /** How many times larger an error in the legs can come out at the tool there; Infinity where singular. */
  readonly magnifications: Float64Array;
  /** Which limit is nearest there: place in LIMIT_NAMES. */
  readonly limits: Uint8Array;
}

/** The boundary of the reach as triangles. */
export interface ReachSurface extends ReachPoints {
  /** Outward unit normals, xyz. */
  readonly normals: Float64Array;
  /** Three corners a triangle. */
  readonly indices: Uint32Array;
}

/** The reach at one orientation to look at, both ways in which it can be drawn. */
export interface ReachPicture {
  readonly detail: PictureDetail;
  readonly cloud: ReachPoints;
  readonly shell: ReachSurface;
}

/** Coarse while something moves, fine when it rests. */
export type PictureDetail = 'coarse' | 'fine';

/**
 * Points of the cloud and cells along the longest side of the shell. Coarse takes some 10 ms on one core, so that the
 * drawing follows a slider; fine some 100 ms, and is as fine as a screen shows.
 */
const DETAIL: Readonly<Record<PictureDetail, { readonly points: number; readonly resolution: number }>> = {
  coarse: { points: 2000, resolution: 20 },
  fine: { points: 12_000, resolution: 52 },
};

/** Cloud and shell of the reach at one orientation: of what is connected with home, or of everything where home is not in it. */
export function reachPicture(mechanism: Mechanism, R_BP: Mat3, detail: PictureDetail): ReachPicture {
  const { points, resolution } = DETAIL[detail];
  const cloud = reachCloud(mechanism, R_BP, { points, homeOnly: true });
  return { detail, cloud: drawn(cloud), shell: reachSurface(mechanism, R_BP, resolution) };
}

/** The shell of the reach at one orientation, ready to draw; `resolution` cells along its longest side. */
export function reachSurface(mechanism: Mechanism, R_BP: Mat3, resolution: number): ReachSurface {
  const shell = reachShell(mechanism, R_BP, { resolution, homeOnly: true });
  const { normals, indices } = shell;
  return { ...drawn(shell), normals, indices };
}

const drawn = ({
  positions,
  smallest,
  limits,
}: Pick<ReachCloud, 'positions' | 'smallest' | 'limits'>): ReachPoints => ({
  positions,
  magnifications: smallest.map((value) => 1 / value),
  limits,
});
