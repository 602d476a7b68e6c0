import type { RingSpec } from '../kinematics/dimensions.ts';
import type { Ring } from '../kinematics/layout.ts';
import type { JointSpec } from '../kinematics/mechanism.ts';

/** Angles that differ by less [rad] are the same: what a sweep file's steps leave of rounding. */
const SAME_ANGLE = 1e-9;

const THIRD_TURN = (2 * Math.PI) / 3;

/**
 * Two layouts can be one platform under two names. A pair with gap g at 0 deg and its neighbour at 120 deg are as well two halves of a
 * pair with gap 120 deg - g at 60 deg: naming both plates' pairs so turns the whole platform by a sixth. And a platform turned
 * by t against its base is the mirror image of the one turned by -t. Both hold only where nothing else of the design tells the
 * names apart: home and tool on the axis, mounts that turn with the legs.
 *
 * Figures that are sampled look at other places of it under another name, so whoever weighs layouts measures the first name of each.
 * @returns the name with the smaller gaps and a turn not below zero
 */
export function firstTwin(design: RingSpec): RingSpec {
  if (!isRound(design)) return design;
  const base = design.base.ring;
  const platform = design.platform.ring;
  const sum = base.gap + platform.gap - THIRD_TURN;
  const renamed = sum > SAME_ANGLE || (sum > -SAME_ANGLE && base.gap > platform.gap + SAME_ANGLE);
  const mirrored = platform.turn < base.turn - SAME_ANGLE && isStraight(design);
  if (!renamed && !mirrored) return design;
  const gap = (own: Ring) => (renamed ? THIRD_TURN - own.gap : own.gap);
  const turn = mirrored ? 2 * base.turn - platform.turn : platform.turn;
  return {
    ...design,
    base: { kind: 'ring', ring: { ...base, gap: gap(base) } },
    platform: { kind: 'ring', ring: { ...platform, gap: gap(platform), turn } },
  };
}

/** A turn of the whole platform about the vertical leaves the design as it is, but for its joints' places. */
function isRound({ base, platform, home, tool, joints }: RingSpec): boolean {
  const [x, y] = home.p_BoTo_B;
  const R = home.R_BP;
  const upright = [R[2], R[5], R[6], R[7]].every((part) => part === 0);
  const free = base.ring.holes === undefined && platform.ring.holes === undefined;
  return (
    x === 0 &&
    y === 0 &&
    tool[0] === 0 &&
    tool[1] === 0 &&
    upright &&
    free &&
    follows(joints.base) &&
    follows(joints.platform)
  );
}

/** The home pose has no yaw, which a mirror would turn round. */
const isStraight = ({ home }: RingSpec): boolean => home.R_BP[1] === 0 && home.R_BP[3] === 0;

/** Mount and kind are given by the joint's place or by its leg, not by fixed directions. */
function follows({ mount, kind }: JointSpec): boolean {
  const axis = kind?.kind === 'rodEnd' ? kind.bolt : kind?.kind === 'universal' ? kind.first : null;
  return mount.kind !== 'leaning' && axis?.kind !== 'angles';
}
