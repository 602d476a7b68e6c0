import type { RingSpec } from '../kinematics/dimensions.ts';
import type { JointSpec } from '../kinematics/mechanism.ts';
import type { Grid } from './grid.ts';

/** Values of an axis that mirror each other to this share of a turn are twins; what a sweep file's steps leave of rounding. */
const SAME_ANGLE = 1e-9;

const THIRD_TURN = (2 * Math.PI) / 3;

/**
 * Two layouts of a grid can be one platform under two names. A pair with gap g at 0 deg and its neighbour at 120 deg are as well two
 * halves of a pair with gap 120 deg - g at 60 deg: naming both plates' pairs so turns the whole platform by a sixth. And a
 * platform turned by t against its base is the mirror image of the one turned by -t. Both hold only where nothing else of the
 * design tells the names apart: home and tool on the axis, mounts that turn with the legs.
 * @returns of each index the lowest one that is the same platform
 */
export function firstTwins(design: RingSpec, grid: Grid): (index: number) => number {
  const round = isRound(design);
  const sixth = round && ['baseGap', 'platformGap'].every((gap) => mirrors(grid, gap, THIRD_TURN));
  const mirror = round && isLevelAhead(design) && mirrors(grid, 'turn', 0);
  if (!sixth && !mirror) return (index) => index;
  const counts = grid.map(({ values }) => values.length);
  const turned = grid.map(({ name }) => sixth && (name === 'baseGap' || name === 'platformGap'));
  const flipped = grid.map(({ name }) => mirror && name === 'turn');
  return (index) => {
    let step = 1;
    let rest = index;
    let turnedBy = 0;
    let flippedBy = 0;
    for (let axis = counts.length - 1; axis >= 0; axis--) {
      const count = counts[axis];
      const place = rest % count;
      const across = (count - 1 - 2 * place) * step;
      if (turned[axis]) turnedBy += across;
      if (flipped[axis]) flippedBy += across;
      rest = Math.floor(rest / count);
      step *= count;
    }
    return index + Math.min(0, turnedBy, flippedBy, turnedBy + flippedBy);
  };
}

/** A varied dimension whose values lie evenly about half of `sum`. */
function mirrors(grid: Grid, name: string, sum: number): boolean {
  const values = grid.find((axis) => axis.name === name)?.values;
  return values?.every((value, n) => Math.abs(value + values[values.length - 1 - n] - sum) <= SAME_ANGLE) === true;
}

/** A turn of the whole platform about the vertical leaves the design as it is, but for its joints' places. */
function isRound({ home, tool, joints }: RingSpec): boolean {
  const [x, y] = home.p_BoTo_B;
  const R = home.R_BP;
  const upright = [R[2], R[5], R[6], R[7]].every((part) => part === 0);
  return (
    x === 0 && y === 0 && tool[0] === 0 && tool[1] === 0 && upright && follows(joints.base) && follows(joints.platform)
  );
}

const isLevelAhead = ({ home }: RingSpec): boolean => home.R_BP[1] === 0 && home.R_BP[3] === 0;

/** Mount and kind are given by the joint's place or by its leg, not by fixed directions. */
function follows({ mount, kind }: JointSpec): boolean {
  const axis = kind?.kind === 'rodEnd' ? kind.bolt : kind?.kind === 'universal' ? kind.first : null;
  return mount.kind !== 'leaning' && axis?.kind !== 'angles';
}
