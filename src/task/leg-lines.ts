import { LIMIT_SLACK } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { JointMeasure } from './joint-measures.ts';
import { ANGLE_TIGHTNESS, type Extreme, LENGTH_TIGHTNESS, type LegExtremes } from './leg-extremes.ts';
import type { Certainty, TaskLine } from './line.ts';
import { marginAtLeast, marginAtMost } from './margin.ts';
import type { TaskLimits } from './requirement.ts';

/** The range that lengths may have [mm], and the stroke they are weighed by. */
export function lengthLimits({ legs }: Mechanism, limits: TaskLimits) {
  return {
    stroke: legs.max - legs.min,
    least: legs.min + (limits.shortMargin ?? 0),
    most: legs.max - (limits.longMargin ?? 0),
  };
}

/** What a joint's angle may be [rad]. */
export function angleLimit({ plate, limit }: JointMeasure, { baseMargin, platformMargin }: TaskLimits): number {
  return Math.max(limit - ((plate === 'base' ? baseMargin : platformMargin) ?? 0), 0);
}

/** Lines of the legs' lengths and the joints' angles. Lengths are weighed by the stroke, angles by their own limit. */
export function legLines(mechanism: Mechanism, extremes: LegExtremes, limits: TaskLimits): readonly TaskLine[] {
  const { shortest, longest, joints } = extremes;
  const { stroke, least, most } = lengthLimits(mechanism, limits);
  const tight = LENGTH_TIGHTNESS * mechanism.size;
  const asked = longest.value - shortest.value;
  const known = shortest.bound !== null && longest.bound !== null;
  const bound = shortest.bound !== null && longest.bound !== null ? longest.bound - shortest.bound : null;
  const within = (margin: number) => margin >= 0;
  return [
    {
      ...placed(shortest),
      quantity: 'shortestLeg',
      limit: least,
      margin: marginAtLeast(shortest.value, least, stroke),
      certainty: certaintyOf(shortest, tight, (value) => within(marginAtLeast(value, least, stroke))),
    },
    {
      ...placed(longest),
      quantity: 'longestLeg',
      limit: most,
      margin: marginAtMost(longest.value, most, stroke),
      certainty: certaintyOf(longest, tight, (value) => within(marginAtMost(value, most, stroke))),
    },
    {
      quantity: 'stroke',
      axis: null,
      asked,
      bound,
      limit: most - least,
      margin: marginAtMost(asked, most - least, stroke),
      counted: false,
      leg: null,
      pose: null,
      certainty: known ? 'proven' : 'searched',
      note: null,
    },
    ...joints.map(({ measure, extreme }): TaskLine => {
      const limit = angleLimit(measure, limits);
      // an angle that nothing asks of comes out as some rounding errors
      const angle = extreme.value < LIMIT_SLACK ? 0 : extreme.value;
      return {
        ...placed(extreme),
        quantity: measure.plate === 'base' ? 'baseTilt' : 'platformTilt',
        axis: measure.about === 'first' || measure.about === 'second' ? measure.about : null,
        asked: angle,
        limit,
        margin: marginAtMost(angle, limit),
        certainty: certaintyOf(extreme, ANGLE_TIGHTNESS, (value) => within(marginAtMost(value, limit))),
      };
    }),
  ];
}

const placed = ({ value, bound, leg, pose }: Extreme) => ({
  axis: null,
  asked: value,
  bound,
  counted: true,
  leg,
  pose,
  note: null,
});

/** Proven where the bound is near the value seen, or keeps the limit. */
function certaintyOf({ value, bound }: Extreme, tight: number, keeps: (value: number) => boolean): Certainty {
  if (bound === null) return 'searched';
  return Math.abs(bound - value) <= tight * (1 + 1e-9) || keeps(bound) ? 'proven' : 'searched';
}
