import type { SweepDocument } from '../../document/sweep-file.ts';
import { dimensionsAt, type Grid } from '../../explore/grid.ts';
import type { BuildableSpec } from '../../kinematics/buildable/spec.ts';
import { type RingSpec, withDimensions } from '../../kinematics/dimensions.ts';
import type { JointSpec } from '../../kinematics/mechanism.ts';
import { shortHash } from '../../math/short-hash.ts';

/** What a sweep's figures depend on: `text` in full, `key` short enough to name stored pieces by. */
export interface SweepIdentity {
  readonly key: string;
  readonly text: string;
}

/**
 * Names a sweep about a design by all that its figures depend on. What the sweep itself varies is left out, so that a layout
 * loaded from a sweep still belongs to it.
 */
export function sweepIdentity(design: RingSpec, grid: Grid, sweep: SweepDocument, build: BuildableSpec): SweepIdentity {
  const { mountLean, ...dimensions } = dimensionsAt(grid, 0);
  const { base, platform, legs, joints, tool, home, characteristicLength } = withDimensions(design, dimensions);
  const joint = ({ tiltLimit, mount, kind }: JointSpec) => ({
    tiltLimit,
    // left out for balls
    kind,
    mount: mount.kind === 'leaning' && mountLean !== undefined ? { ...mount, lean: mountLean } : mount,
  });
  const ring = ({ radius, gap, turn, jointHeight }: RingSpec['base']['ring']) => ({ radius, gap, turn, jointHeight });
  const content = {
    base: ring(base.ring),
    platform: ring(platform.ring),
    legs,
    build,
    joints: { base: joint(joints.base), platform: joint(joints.platform) },
    tool,
    home,
    characteristicLength,
    sweep,
  };
  const text = JSON.stringify(content, (_, value) => (value instanceof Float64Array ? Array.from(value) : value));
  return { key: shortHash(text), text };
}
