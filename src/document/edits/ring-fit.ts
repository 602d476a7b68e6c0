import { idealJointAngles, LEG_COUNT, type PlateName, ringJoints } from '../../kinematics/layout.ts';
import { at, length, subtract } from '../../math/vec3.ts';
import { degrees, radians } from '../../terms/units.ts';
import type { RingDocument } from '../design.ts';

/** The ring nearest to six points, and how far it would move the worst of them [mm]. */
export interface RingFit {
  readonly ring: RingDocument;
  readonly misfit_mm: number;
}

/** Digits behind the point that a fitted ring keeps: a picometre, a billionth of a degree; rounding errors go. */
const KEPT_DECIMALS = 9;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

/** An angle in (-180, 180] deg. */
const halfTurn = (angle_deg: number): number => angle_deg - 360 * Math.ceil((angle_deg - 180) / 360);

/**
 * Least-squares ring through six joint centres: mean radius, then turn and pair gap from the joints' angles in plan. Points that
 * came from a ring give that ring back with no misfit.
 * @param points flat 18, plate frame [mm]
 */
export function nearestRing(points: ArrayLike<number>, plate: PlateName): RingFit {
  // angles of the six joints of a ring without gap, and which way each moves when the gap opens
  const closed = idealJointAngles({ radius: 1, gap: 0, turn: 0, jointHeight: 0 }, plate);
  const open = idealJointAngles({ radius: 1, gap: 2, turn: 0, jointHeight: 0 }, plate);
  let radius = 0;
  let sine = 0;
  let cosine = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const [x, y] = at(points, leg);
    const away = Math.atan2(y, x) - closed[leg];
    radius += Math.hypot(x, y) / LEG_COUNT;
    sine += Math.sin(away);
    cosine += Math.cos(away);
  }
  const turn_deg = degrees(Math.atan2(sine, cosine));
  let gap_deg = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const [x, y] = at(points, leg);
    const away_deg = halfTurn(degrees(Math.atan2(y, x) - closed[leg]) - turn_deg);
    gap_deg += (2 * (open[leg] - closed[leg]) * away_deg) / LEG_COUNT;
  }
  const ring: RingDocument = {
    radius_mm: kept(radius),
    gap_deg: Math.min(Math.max(kept(gap_deg), 0), 120),
    turn_deg: kept(turn_deg),
    jointHeight_mm: 0,
  };
  return { ring, misfit_mm: misfit(points, ring, plate) };
}

function misfit(points: ArrayLike<number>, ring: RingDocument, plate: PlateName): number {
  const fitted = ringJoints(
    { radius: ring.radius_mm, gap: radians(ring.gap_deg), turn: radians(ring.turn_deg), jointHeight: 0 },
    plate,
  );
  let worst = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) worst = Math.max(worst, length(subtract(at(points, leg), at(fitted, leg))));
  return worst;
}
