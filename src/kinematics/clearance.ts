import { segmentDistance } from '../math/capsule.ts';
import { ConvexDistance } from '../math/convex-distance.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { add, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { insideOutline, place } from './bodies.ts';
import {
  type ClearanceModel,
  type ClearancePair,
  clearanceModel,
  type LegBody,
  type SolidBody,
} from './clearance-pairs.ts';
import type { JudgementFault } from './inverse-jacobian.ts';
import { type ClearanceSpec, clearanceFault } from './keep-out.ts';
import { LEG_COUNT } from './layout.ts';
import { segmentOffset, writeSegments } from './leg-bodies.ts';
import { writeLegs } from './legs.ts';
import type { Mechanism } from './mechanism.ts';
import { type Pose, platformOrigin } from './pose.ts';

/** Distance of two bodies at a pose. */
export interface Clearance {
  readonly a: string;
  readonly b: string;
  /**
   * Surface to surface [mm]; exact. Zero or less when the bodies meet: then it says no more than that the axes of round
   * legs come at least that close.
   */
  readonly distance: number;
  /** Closest points of the two surfaces, base axes [mm]; meaningless when the bodies meet. */
  readonly onA: Vec3;
  readonly onB: Vec3;
}

export interface ClearanceReport {
  /** The closest pair; null when nothing can meet. */
  readonly smallest: Clearance | null;
  /** Closest parts of every two things (leg and leg, leg and plate...), nearest first. */
  readonly pairs: readonly Clearance[];
}

/** All clearances of a design at a pose. */
export function assessClearance(
  mechanism: Mechanism,
  pose: Pose,
  spec: ClearanceSpec,
): Result<ClearanceReport, JudgementFault> {
  const fault = clearanceFault(spec);
  if (fault) return failed(fault);
  const model = clearanceModel(mechanism, spec);
  poseBodies(model, pose);
  const walker = new ConvexDistance();
  const nearest = new Map<string, Clearance>();
  for (const pair of [...model.legPairs, ...model.legSolidPairs, ...model.solidPairs]) {
    const key = `${thing(pair.a)}|${thing(pair.b)}`;
    const clearance = pairClearance(pair, walker);
    const known = nearest.get(key);
    if (!known || clearance.distance < known.distance) nearest.set(key, clearance);
  }
  const pairs = [...nearest.values()].sort((a, b) => a.distance - b.distance);
  return ok({ smallest: pairs[0] ?? null, pairs });
}

/** Parts of one leg and pieces of one plate count as one thing in the list. */
const thing = (body: LegBody | SolidBody): string =>
  body.kind === 'leg' ? `leg ${body.leg}` : `${body.name} on ${body.fixedTo}`;

function pairClearance({ a, b }: ClearancePair, walker: ConvexDistance): Clearance {
  const between = walker.between(a.core, b.core);
  const onA: Vec3 = [walker.onA[0], walker.onA[1], walker.onA[2]];
  const onB: Vec3 = [walker.onB[0], walker.onB[1], walker.onB[2]];
  const toward = between > 0 ? scale(subtract(onB, onA), 1 / length(subtract(onB, onA))) : ([0, 0, 0] as const);
  return {
    a: a.name,
    b: b.name,
    distance: between - a.radius - b.radius,
    onA: add(onA, scale(toward, a.radius)),
    onB: subtract(onB, scale(toward, b.radius)),
  };
}

/** Puts the model's bodies where they are at a pose. */
export function poseBodies(model: ClearanceModel, pose: Pose): void {
  const { mechanism, spec, segments, placements } = model;
  const vectors = new Float64Array(3 * LEG_COUNT);
  const lengths = new Float64Array(LEG_COUNT);
  writeLegs(mechanism, pose, vectors, lengths);
  writeSegments(mechanism, spec, vectors, lengths, segments);
  place(placements.platform, pose.R_BP, platformOrigin(pose, mechanism.p_PoTo_P));
}

/**
 * The smallest clearance alone, for many poses: bodies that cannot beat the smallest so far are passed over by a cheap lower
 * bound, and nothing is allocated. Same answer as {@link assessClearance}.
 */
export class SmallestClearance {
  readonly model: ClearanceModel;
  private readonly walker = new ConvexDistance();
  private readonly tip = new Float64Array(3);
  private readonly legGroups: readonly (readonly { readonly a: LegBody; readonly b: LegBody }[])[];
  private readonly thickest: number;

  constructor(model: ClearanceModel) {
    this.model = model;
    const groups = new Map<number, { readonly a: LegBody; readonly b: LegBody }[]>();
    for (const pair of model.legPairs) {
      const key = LEG_COUNT * pair.a.leg + pair.b.leg;
      const group = groups.get(key);
      if (group) group.push(pair);
      else groups.set(key, [pair]);
    }
    this.legGroups = [...groups.values()];
    const { barrelDiameter, rodDiameter } = model.mechanism.legs;
    this.thickest = Math.max(barrelDiameter, rodDiameter);
  }

  /** Of the bodies as they are posed now [mm]; Infinity when nothing can meet. */
  now(): number {
    let best = Number.POSITIVE_INFINITY;
    for (const pair of this.model.legSolidPairs) best = this.legToSolid(pair.a, pair.b, best);
    for (const group of this.legGroups) best = this.betweenLegs(group, best);
    for (const { a, b } of this.model.solidPairs) best = this.betweenSolids(a, b, best);
    return best;
  }

  private betweenLegs(group: readonly { readonly a: LegBody; readonly b: LegBody }[], best: number): number {
    const { segments } = this.model;
    const whole = segmentDistance(
      segments,
      segmentOffset(group[0].a.leg, 'whole'),
      segments,
      segmentOffset(group[0].b.leg, 'whole'),
    );
    if (whole - this.thickest >= best) return best;
    let smallest = best;
    for (const { a, b } of group) {
      const thickness = a.radius + b.radius;
      // no part is nearer than the whole leg
      if (whole - thickness >= smallest) continue;
      smallest = Math.min(smallest, segmentDistance(segments, a.segment, segments, b.segment) - thickness);
    }
    return smallest;
  }

  /** A leg and a solid: by height over it where that decides, by the ball around it, or in full. */
  private legToSolid(a: LegBody, b: SolidBody, best: number): number {
    const { segments } = this.model;
    const { R, p } = b.core.placement;
    const s = a.segment;
    const low = heightOver(R, p, segments, s);
    const high = heightOver(R, p, segments, s + 3);
    const above = Math.min(low, high) - b.top;
    const below = b.bottom - Math.max(low, high);
    const gap = Math.max(above, below);
    if (gap - a.radius >= best) return best;
    if (ballGap(b, segments, s) - a.radius >= best) return best;
    if (gap > 0) {
      // the end that is nearest in height lies over the outline: no other point is nearer
      const end = above > 0 === low < high ? s : s + 3;
      const x = segments[end] - p[0];
      const y = segments[end + 1] - p[1];
      const z = segments[end + 2] - p[2];
      const inside = insideOutline(b.core.solid, R[0] * x + R[3] * y + R[6] * z, R[1] * x + R[4] * y + R[7] * z);
      if (inside) return Math.min(best, gap - a.radius);
    }
    return Math.min(best, this.walker.between(a.core, b.core, best + a.radius) - a.radius);
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
    const lowest = heightOver(R, p, tip, 0);
    b.core.support(R[2], R[5], R[8], tip, 0);
    return Math.max(lowest - a.top, a.bottom - heightOver(R, p, tip, 0));
  }
}

/** z of a point in the solid's own frame. */
const heightOver = (R: Float64Array, p: Float64Array, points: Float64Array, at: number): number =>
  R[2] * (points[at] - p[0]) + R[5] * (points[at + 1] - p[1]) + R[8] * (points[at + 2] - p[2]);

/** Lower bound of the distance from a segment to a solid: to the ball around it. */
function ballGap({ ball, core }: SolidBody, points: Float64Array, s: number): number {
  const { R, p } = core.placement;
  const [x, y, z] = ball.centre;
  const cx = R[0] * x + R[1] * y + R[2] * z + p[0] - points[s];
  const cy = R[3] * x + R[4] * y + R[5] * z + p[1] - points[s + 1];
  const cz = R[6] * x + R[7] * y + R[8] * z + p[2] - points[s + 2];
  const dx = points[s + 3] - points[s];
  const dy = points[s + 4] - points[s + 1];
  const dz = points[s + 5] - points[s + 2];
  const size = dx * dx + dy * dy + dz * dz;
  const t = size > 0 ? Math.min(Math.max((cx * dx + cy * dy + cz * dz) / size, 0), 1) : 0;
  return Math.hypot(cx - t * dx, cy - t * dy, cz - t * dz) - ball.radius;
}
