import type { PlateName } from '../kinematics/layout.ts';
import { jointMounts } from './joint-mounts.ts';
import type { BuildParts } from './parts.ts';

/** One bracket that several legs share: its foot is turned with its lean, so only height and lean make it differ. */
export interface BracketKind {
  /** Legs that stand on it, 1 to 6. */
  readonly legs: readonly number[];
  /** Height of the joint's centre over the face [mm], and lean of the mount axis [rad]. */
  readonly height: number;
  readonly lean: number;
}

/** Two brackets are one when the ball of one in the place of the other is off by less than this [mm]: a hundredth of what a workshop holds. */
const SAME_HEIGHT = 1e-4;

/** ...and their bores differ by less than this [rad]: 0.0006 deg. */
const SAME_LEAN = 1e-5;

/** The distinct brackets of a plate, in the order of the first leg that stands on each. */
export function bracketKinds(parts: BuildParts, side: PlateName): readonly BracketKind[] {
  const kinds: { legs: number[]; height: number; lean: number }[] = [];
  for (const { leg, height, lean } of jointMounts(parts, side)) {
    const same = kinds.find(
      (kind) => Math.abs(kind.height - height) < SAME_HEIGHT && Math.abs(kind.lean - lean) < SAME_LEAN,
    );
    if (same) same.legs.push(leg);
    else kinds.push({ legs: [leg], height, lean });
  }
  return kinds;
}
