import type { PlateName } from '../kinematics/layout.ts';
import { type JointMount, jointMounts, type Point } from './joint-mounts.ts';
import type { BuildParts } from './parts.ts';

/** A hole through a plate. */
export interface PlateHole {
  readonly centre: Point;
  readonly radius: number;
  /** What it is for. */
  readonly use: 'index' | 'bolt' | 'mark';
  /** Its number among the indexed holes; null for others. */
  readonly number: number | null;
  /** What a warning calls it. */
  readonly name: string;
}

/** One plate as it is drilled. */
export interface DrilledPlate {
  readonly side: PlateName;
  readonly mounts: readonly JointMount[];
  /** Every hole once: where a bolt goes through an indexed hole it is the indexed one. */
  readonly holes: readonly PlateHole[];
  /** The hole that tells the faces apart; null where there is no room for it. */
  readonly mark: Point | null;
  /** Radius of the joint circle; null for free points. */
  readonly circle: number | null;
}

/** Two holes nearer than this are one [mm]: rounding of one place computed in two ways, far below any drilling. */
const SAME_PLACE = 1e-6;

export function drilledPlate(parts: BuildParts, side: PlateName): DrilledPlate {
  const mounts = jointMounts(parts, side);
  const radius = parts.choices.hole / 2;
  const holes: PlateHole[] = indexedHoles(parts, side, mounts);
  for (const { leg, bolts } of mounts)
    for (const [n, centre] of bolts.entries()) {
      const there = holes.some((hole) => distance(hole.centre, centre) < SAME_PLACE);
      const name = bolts.length === 1 ? `bolt of leg ${leg}` : `bolt ${n + 1} of leg ${leg}`;
      if (!there) holes.push({ centre, radius, use: 'bolt', number: null, name });
    }
  const layout = parts.mechanism.spec[side];
  const circle = layout.kind === 'ring' ? layout.ring.radius : null;
  const mark = markPlace(parts, side, mounts, holes);
  if (mark) holes.push({ centre: mark, radius, use: 'mark', number: null, name: 'marking hole' });
  return { side, mounts, holes, mark, circle };
}

function indexedHoles({ mechanism, choices }: BuildParts, side: PlateName, mounts: readonly JointMount[]): PlateHole[] {
  const layout = mechanism.spec[side];
  if (layout.kind !== 'ring' || !layout.ring.holes) return [];
  const { count, start } = layout.ring.holes;
  const used = new Set(mounts.map(({ hole }) => hole));
  const numbers = Array.from({ length: count }, (_, n) => n + 1);
  return numbers
    .filter((number) => choices.holes === 'all' || used.has(number))
    .map((number) => {
      const angle = start + (2 * Math.PI * (number - 1)) / count;
      const centre: Point = [layout.ring.radius * Math.cos(angle), layout.ring.radius * Math.sin(angle)];
      // the joint itself says where its hole is, so that drawing and kinematics cannot differ
      const own = mounts.find(({ hole }) => hole === number);
      return {
        centre: own?.foot ?? centre,
        radius: choices.hole / 2,
        use: 'index' as const,
        number,
        name: `hole ${number}`,
      };
    });
}

/**
 * A place for the marking hole inside of the joints, on no axis of symmetry of any pattern of three pairs, so that neither a turn nor a flip of the
 * plate brings it onto itself: the first with enough material around it.
 */
function markPlace(
  parts: BuildParts,
  side: PlateName,
  mounts: readonly JointMount[],
  holes: readonly PlateHole[],
): Point | null {
  const body = parts.plates[side];
  const { hole, edge } = parts.choices;
  const nearest = Math.min(...mounts.map(({ foot }) => Math.hypot(...foot)));
  const need = hole + edge;
  for (const share of MARK_SHARES) {
    const radius = body.opening + share * (nearest - body.opening);
    for (const angle of MARK_ANGLES) {
      const place: Point = [radius * Math.cos(angle), radius * Math.sin(angle)];
      const clearOfOpening = radius - body.opening >= hole / 2 + edge;
      const clearOfFeet = mounts.every(({ foot }) => distance(foot, place) >= 0.75 * parts.choices.block + hole / 2);
      const inside = rimDistance(body.outline, place) >= hole / 2 + edge;
      if (clearOfOpening && clearOfFeet && inside && holes.every(({ centre }) => distance(centre, place) >= need))
        return place;
    }
  }
  return null;
}
const MARK_SHARES = [0.7, 0.6, 0.8, 0.5, 0.4];
/** 17 deg and others, each at least 7 deg off every multiple of 30 deg. */
const MARK_ANGLES = [17, 43, 77, 103, 137, 163, 197, 223].map((degrees) => (degrees * Math.PI) / 180);

export const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** How far inside of a plate's outline a place is [mm]; negative outside. */
export function rimDistance(outline: BuildParts['plates']['base']['outline'], [x, y]: Point): number {
  if (outline.kind === 'disc') return outline.radius - Math.hypot(x, y);
  const { points } = outline;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const [ex, ey] = [points[j] - points[i], points[j + 1] - points[i + 1]];
    const side = (ex * (y - points[i + 1]) - ey * (x - points[i])) / Math.hypot(ex, ey);
    least = Math.min(least, side);
  }
  return least;
}
