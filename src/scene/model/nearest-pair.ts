import type { DesignDocument } from '../../document/design.ts';
import { assessClearance, type Clearance, poseBodies, SmallestClearance } from '../../kinematics/clearance.ts';
import { clearanceModel } from '../../kinematics/clearance-pairs.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';
import { compiledDesign } from '../../state/derived.ts';
import { sceneParts } from './scene-parts.ts';

/** The two bodies that come nearest to each other, as they are marked. */
export interface NearestPair {
  /** Nearest points of the two surfaces, base axes [mm]; the same place twice when the bodies meet. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** "leg 1 rod to leg 2 rod 23.4 mm", or that they meet. */
  readonly words: string;
  readonly meets: boolean;
}

const gauges = new WeakMap<DesignDocument, SmallestClearance>();

/** Distance of the nearest two bodies of a design at a pose [mm]; Infinity when nothing can meet. */
function smallestAt(document: DesignDocument, pose: Pose): number {
  let gauge = gauges.get(document);
  if (!gauge) {
    gauge = new SmallestClearance(clearanceModel(compiledDesign(document).mechanism, sceneParts(document).clearance));
    gauges.set(document, gauge);
  }
  poseBodies(gauge.model, pose);
  return gauge.now();
}

/** The nearest pair at a pose, where it is wanted or where bodies meet; null otherwise. */
export function nearestPair(document: DesignDocument, pose: Pose, wanted: boolean): NearestPair | null {
  if (!wanted && smallestAt(document, pose) > 0) return null;
  const report = assessClearance(compiledDesign(document).mechanism, pose, sceneParts(document).clearance);
  return report.ok && report.value.smallest ? marked(report.value.smallest) : null;
}

function marked({ a, b, distance, onA, onB }: Clearance): NearestPair {
  if (distance > 0) return { from: onA, to: onB, words: `${a} to ${b} ${distance.toFixed(1)} mm`, meets: false };
  const middle = scale(add(onA, onB), 0.5);
  return { from: middle, to: middle, words: `${a} meets ${b}`, meets: true };
}
