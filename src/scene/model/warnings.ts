import { degrees } from '../../document/units.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { LimitName } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';

/** A broken limit where it happens. */
export interface Warning {
  readonly leg: number;
  readonly limit: LimitName;
  /** As it stands beside the leg or joint: "leg 3 too long 214.2 mm". */
  readonly words: string;
  /** Place in base axes [mm]. */
  readonly anchor: Vec3;
}

/**
 * Every broken limit of a pose, leg by leg.
 * @param judged the legs that are judged, `drawn` the same legs where they are drawn
 */
export const poseWarnings = (
  judged: readonly LegState[],
  drawn: readonly LegState[],
  mechanism: Mechanism,
): readonly Warning[] =>
  judged.flatMap((leg, index) =>
    leg.violations.map((limit) => ({
      leg: leg.leg,
      limit,
      words: `leg ${leg.leg} ${warningWords(leg, limit, mechanism)}`,
      anchor: warningAnchor(drawn[index], limit),
    })),
  );

function warningWords(leg: LegState, limit: LimitName, { tiltLimit }: Mechanism): string {
  const length = `${leg.length.toFixed(1)} mm`;
  const tilt = (angle: number, end: number) => `${degrees(angle).toFixed(1)}° of ${degrees(end).toFixed(0)}°`;
  switch (limit) {
    case 'legTooShort':
      return `too short ${length}`;
    case 'legTooLong':
      return `too long ${length}`;
    case 'baseJoint':
      return `base joint ${tilt(leg.baseTilt, tiltLimit.base)}`;
    case 'platformJoint':
      return `platform joint ${tilt(leg.platformTilt, tiltLimit.platform)}`;
  }
}

function warningAnchor(leg: LegState, limit: LimitName): Vec3 {
  if (limit === 'baseJoint') return leg.baseJoint_B;
  if (limit === 'platformJoint') return leg.platformJoint_B;
  // between barrel and rod, where a leg that is pulled too far comes apart
  return add(leg.baseJoint_B, scale(leg.u_B, 0.68 * leg.length));
}
