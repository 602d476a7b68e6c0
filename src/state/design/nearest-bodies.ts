import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { designParts } from '../../document/design-parts.ts';
import { type Clearance, poseBodies } from '../../kinematics/clearance.ts';
import { clearanceModel } from '../../kinematics/clearance-pairs.ts';
import { nearestPair } from '../../kinematics/nearest-pair.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { SmallestClearance } from '../../kinematics/smallest-clearance.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';

/** The two bodies that come nearest to each other at a pose. */
export interface NearestBodies {
  /** Nearest points of the two surfaces, base axes [mm]; the same place twice when the bodies meet. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** "leg 1 rod to leg 2 rod 23.4 mm", what it must keep where that is broken, or that they meet. */
  readonly words: string;
  /** Far enough from each other, nearer than the design asks, or in each other. */
  readonly state: 'apart' | 'near' | 'meet';
}

const gauges = new WeakMap<DesignDocument, SmallestClearance>();

function gaugeOf(document: DesignDocument): SmallestClearance {
  let gauge = gauges.get(document);
  if (!gauge) {
    gauge = new SmallestClearance(clearanceModel(compiledDesign(document).mechanism, designParts(document).clearance));
    gauges.set(document, gauge);
  }
  return gauge;
}

/** Least distance that the design asks for [mm]: bodies must not meet, whatever it asks. */
const leastDistance = ({ floors }: DesignDocument): number => Math.max(floors?.clearance_mm ?? 0, 0);

interface Found {
  readonly pose: Pose;
  readonly wanted: boolean;
  readonly bodies: NearestBodies | null;
}

const found = new WeakMap<DesignDocument, Found>();

/**
 * The nearest two bodies at a pose, where that is wanted or where they come too near; null otherwise. The last answer of each
 * document is remembered.
 */
export function nearestBodies(document: DesignDocument, pose: Pose, wanted: boolean): NearestBodies | null {
  const known = found.get(document);
  if (known?.pose === pose && known.wanted === wanted) return known.bodies;
  const bodies = search(document, pose, wanted);
  found.set(document, { pose, wanted, bodies });
  return bodies;
}

function search(document: DesignDocument, pose: Pose, wanted: boolean): NearestBodies | null {
  const least = leastDistance(document);
  const gauge = gaugeOf(document);
  poseBodies(gauge.model, pose);
  const smallest = gauge.now();
  if (!wanted && smallest > 0 && smallest >= least) return null;
  const pair = nearestPair(gauge.model, smallest);
  return pair && marked(pair, least);
}

function marked({ a, b, distance, onA, onB }: Clearance, least: number): NearestBodies {
  const words = `${a} to ${b} ${distance.toFixed(1)} mm`;
  if (distance >= least && distance > 0) return { from: onA, to: onB, words, state: 'apart' };
  if (distance > 0) return { from: onA, to: onB, words: `${words} of ${least} mm`, state: 'near' };
  const middle = scale(add(onA, onB), 0.5);
  return { from: middle, to: middle, words: `${a} meets ${b}`, state: 'meet' };
}
