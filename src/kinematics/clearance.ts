import { ConvexDistance } from '../math/convex-distance.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { add, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { place } from './bodies.ts';
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
import { writeSegments } from './leg-bodies.ts';
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

/** Distance and nearest points of one pair as its bodies are posed now. */
export function pairClearance({ a, b }: ClearancePair, walker: ConvexDistance): Clearance {
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

export { SmallestClearance } from './smallest-clearance.ts';
