import { segmentDistance } from '../math/capsule.ts';
import { ConvexDistance } from '../math/convex-distance.ts';
import { insideOutline } from './bodies.ts';
import type { ClearanceModel, LegBody, SolidBody } from './clearance-pairs.ts';
import { LEG_COUNT } from './layout.ts';
import { segmentOffset } from './leg-bodies.ts';

/** Numbers per solid: its z axis, what to take off a height along it, bottom and top, middle and radius of the ball around it. */
const FRAME = 10;

/** A leg's part and a solid. */
interface LegSolidPair {
  readonly a: LegBody;
  readonly b: SolidBody;
  /** Place of the solid in the flat array. */
  readonly frame: number;
}

/** Two legs with the pairs of their parts. */
interface LegGroup {
  readonly one: number;
  readonly other: number;
  readonly parts: readonly { readonly a: LegBody; readonly b: LegBody }[];
}

/**
 * The smallest clearance alone, for many poses: bodies that cannot beat the smallest so far are passed over by a cheap lower
 * bound, those that were nearest last are tried first, and nothing is allocated. Same answer as `assessClearance`.
 */
export class SmallestClearance {
  readonly model: ClearanceModel;
  private readonly walker = new ConvexDistance();
  private readonly tip = new Float64Array(3);
  private readonly frames: Float64Array;
  private readonly solids: readonly SolidBody[];
  private readonly legSolids: readonly LegSolidPair[];
  private readonly groups: readonly LegGroup[];
  private readonly thickest: number;
  /** What was nearest at the pose before: a pose beside it has most likely the same. */
  private lastGroup = 0;
  private lastPair = 0;

  constructor(model: ClearanceModel) {
    this.model = model;
    this.solids = [...new Set(model.legSolidPairs.map(({ b }) => b))];
    this.frames = new Float64Array(FRAME * this.solids.length);
    this.legSolids = model.legSolidPairs.map(({ a, b }) => ({ a, b, frame: FRAME * this.solids.indexOf(b) }));
    this.groups = groupedByLegs(model);
    const { barrelDiameter, rodDiameter } = model.mechanism.legs;
    this.thickest = Math.max(barrelDiameter, rodDiameter);
  }

  /** Of the bodies as they are posed now [mm]; Infinity when nothing can meet. */
  now(): number {
    const { groups, legSolids } = this;
    this.placeSolids();
    let best = Number.POSITIVE_INFINITY;
    if (groups.length > 0) best = this.betweenLegs(groups[this.lastGroup], best);
    if (legSolids.length > 0) best = this.legToSolid(legSolids[this.lastPair], best);
    for (let n = 0; n < groups.length; n++) {
      const found = this.betweenLegs(groups[n], best);
      if (found < best) this.lastGroup = n;
      best = found;
    }
    for (let n = 0; n < legSolids.length; n++) {
      const found = this.legToSolid(legSolids[n], best);
      if (found < best) this.lastPair = n;
      best = found;
    }
    for (const { a, b } of this.model.solidPairs) best = this.betweenSolids(a, b, best);
    return best;
  }

  /** Where every solid's axis and ball are now. */
  private placeSolids(): void {
    const { solids, frames } = this;
    for (let n = 0, f = 0; n < solids.length; n++, f += FRAME) {
      const { core, bottom, top, ball } = solids[n];
      const { R, p } = core.placement;
      const [x, y, z] = ball.centre;
      frames[f] = R[2];
      frames[f + 1] = R[5];
      frames[f + 2] = R[8];
      frames[f + 3] = R[2] * p[0] + R[5] * p[1] + R[8] * p[2];
      frames[f + 4] = bottom;
      frames[f + 5] = top;
      frames[f + 6] = R[0] * x + R[1] * y + R[2] * z + p[0];
      frames[f + 7] = R[3] * x + R[4] * y + R[5] * z + p[1];
      frames[f + 8] = R[6] * x + R[7] * y + R[8] * z + p[2];
      frames[f + 9] = ball.radius;
    }
  }

  private betweenLegs({ one, other, parts }: LegGroup, best: number): number {
    const { segments } = this.model;
    const whole = segmentDistance(segments, one, segments, other);
    if (whole - this.thickest >= best) return best;
    let smallest = best;
    for (let n = 0; n < parts.length; n++) {
      const { a, b } = parts[n];
      const thickness = a.radius + b.radius;
      // no part is nearer than the whole leg
      if (whole - thickness >= smallest) continue;
      smallest = Math.min(smallest, segmentDistance(segments, a.segment, segments, b.segment) - thickness);
    }
    return smallest;
  }

  /** A leg and a solid: by height over it where that decides, by the ball around it, or in full. */
  private legToSolid({ a, b, frame: f }: LegSolidPair, best: number): number {
    const { frames } = this;
    const { segments: S } = this.model;
    const s = a.segment;
    const nx = frames[f];
    const ny = frames[f + 1];
    const nz = frames[f + 2];
    const first = nx * S[s] + ny * S[s + 1] + nz * S[s + 2] - frames[f + 3];
    const last = nx * S[s + 3] + ny * S[s + 4] + nz * S[s + 5] - frames[f + 3];
    const above = Math.min(first, last) - frames[f + 5];
    const gap = Math.max(above, frames[f + 4] - Math.max(first, last));
    if (gap - a.radius >= best || ballIsBeyond(frames, f, S, s, best + a.radius)) return best;
    if (gap > 0) {
      // the end that is nearest in height lies over the outline: no other point is nearer
      const end = above > 0 === first < last ? s : s + 3;
      if (this.isOver(b, S[end], S[end + 1], S[end + 2])) return Math.min(best, gap - a.radius);
    }
    return Math.min(best, this.walker.between(a.core, b.core, best + a.radius) - a.radius);
  }

  /** Whether a place lies over or under the outline of a solid. */
  private isOver({ core: { solid, placement } }: SolidBody, x: number, y: number, z: number): boolean {
    const { R, p } = placement;
    const dx = x - p[0];
    const dy = y - p[1];
    const dz = z - p[2];
    const u = R[0] * dx + R[3] * dy + R[6] * dz;
    const v = R[1] * dx + R[4] * dy + R[7] * dz;
    if (solid.kind !== 'cylinder') return insideOutline(solid, u, v);
    const { from, to, radius } = solid;
    if (from[0] !== to[0] || from[1] !== to[1]) return false;
    return (u - from[0]) ** 2 + (v - from[1]) ** 2 <= radius * radius;
  }

  private betweenSolids(a: SolidBody, b: SolidBody, best: number): number {
    const [ax, ay, az] = a.ball.centre;
    const [bx, by, bz] = b.ball.centre;
    const A = a.core.placement;
    const B = b.core.placement;
    let square = 0;
    for (let axis = 0; axis < 3; axis++) {
      const r = 3 * axis;
      const onA = A.R[r] * ax + A.R[r + 1] * ay + A.R[r + 2] * az + A.p[axis];
      const onB = B.R[r] * bx + B.R[r + 1] * by + B.R[r + 2] * bz + B.p[axis];
      square += (onA - onB) ** 2;
    }
    if (Math.sqrt(square) - a.ball.radius - b.ball.radius >= best) return best;
    if (this.heightGap(a, b) >= best || this.heightGap(b, a) >= best) return best;
    return Math.min(best, this.walker.between(a.core, b.core, best));
  }

  /** Lower bound of the distance: how far b lies over or under a, along a's own z. */
  private heightGap(a: SolidBody, b: SolidBody): number {
    const { tip } = this;
    const { R, p } = a.core.placement;
    b.core.support(-R[2], -R[5], -R[8], tip, 0);
    const lowest = R[2] * (tip[0] - p[0]) + R[5] * (tip[1] - p[1]) + R[8] * (tip[2] - p[2]);
    if (lowest >= a.top) return lowest - a.top;
    b.core.support(R[2], R[5], R[8], tip, 0);
    return Math.max(
      lowest - a.top,
      a.bottom - (R[2] * (tip[0] - p[0]) + R[5] * (tip[1] - p[1]) + R[8] * (tip[2] - p[2])),
    );
  }
}

function groupedByLegs({ legPairs }: ClearanceModel): readonly LegGroup[] {
  const groups = new Map<number, { readonly a: LegBody; readonly b: LegBody }[]>();
  for (const pair of legPairs) {
    const key = LEG_COUNT * pair.a.leg + pair.b.leg;
    const group = groups.get(key);
    if (group) group.push(pair);
    else groups.set(key, [pair]);
  }
  return [...groups.values()].map((parts) => ({
    one: segmentOffset(parts[0].a.leg, 'whole'),
    other: segmentOffset(parts[0].b.leg, 'whole'),
    parts,
  }));
}

/** Whether the ball around a solid is at least so far from a segment. */
function ballIsBeyond(frames: Float64Array, f: number, S: Float64Array, s: number, distance: number): boolean {
  const reach = distance + frames[f + 9];
  if (reach <= 0) return true;
  const cx = frames[f + 6] - S[s];
  const cy = frames[f + 7] - S[s + 1];
  const cz = frames[f + 8] - S[s + 2];
  const dx = S[s + 3] - S[s];
  const dy = S[s + 4] - S[s + 1];
  const dz = S[s + 5] - S[s + 2];
  const size = dx * dx + dy * dy + dz * dz;
  const t = size > 0 ? Math.min(Math.max((cx * dx + cy * dy + cz * dz) / size, 0), 1) : 0;
  const x = cx - t * dx;
  const y = cy - t * dy;
  const z = cz - t * dz;
  return x * x + y * y + z * z >= reach * reach;
}
