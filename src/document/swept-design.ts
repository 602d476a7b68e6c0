import { isRingSpec, type RingSpec, withoutHoles } from '../kinematics/dimensions.ts';
import type { JointSpec } from '../kinematics/mechanism.ts';
import { failed, ok, type Result } from '../math/result.ts';
import type { DesignDocument } from './design.ts';
import { type DesignFault, fault } from './faults.ts';
import { mechanismFromDocument } from './units.ts';

/**
 * The design around which a sweep varies layouts, its joints free of indexed holes; refused unless both plates are rings and the
 * joint limits, or the cones within them, are cones that a standing column cuts in one piece.
 */
export function sweptDesign(document: DesignDocument): Result<RingSpec, readonly DesignFault[]> {
  const { spec } = mechanismFromDocument(document);
  if (!isRingSpec(spec)) {
    const remedy = 'Give both plates as rings, or look at this one design by itself.';
    return failed([fault('contradiction', 'base and platform', 'not both rings', 'rings, to be swept', remedy)]);
  }
  const wide = (['base', 'platform'] as const).filter((plate) => {
    const limit = widestCone(spec.joints[plate]);
    return limit >= Math.PI / 2 && limit < Math.PI;
  });
  if (wide.length === 0) return ok(withoutHoles(spec));
  const remedy = 'Lower it below 90, or write 180 for a joint without limit.';
  return failed(
    wide.map((plate) => {
      const value = String(document.joints[plate].tilt_deg);
      return fault('contradiction', `joints.${plate}.tilt_deg`, value, 'below 90, or 180, to be swept', remedy);
    }),
  );
}

/** Half angle [rad] that no cone within the limits of such a joint exceeds, whatever the layout. */
const widestCone = ({ tiltLimit, kind }: JointSpec): number =>
  kind?.kind === 'universal' ? Math.min(tiltLimit, kind.secondLimit) : tiltLimit;
