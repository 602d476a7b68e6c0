import type { DesignDocument, PoseDocument } from '../../document/design.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Excursion, MotionReport } from '../../motion/follow/follow.ts';
import { LEG_READINGS, type LegReading, type MovingDesign } from '../../motion/follow/leg-readings.ts';
import type { MotionLimit } from '../../motion/follow/limits.ts';
import type { LegSpaceDeviation } from '../../motion/leg-space.ts';
import { degrees } from '../../terms/units.ts';
import { figure } from '../findings.ts';

/** What belongs to the report besides what was followed. */
export interface MotionContext {
  readonly law: 'asked' | 'fastest';
  readonly fastest: { readonly bareDuration: number; readonly slowedBy: number; readonly ramp: number } | null;
  readonly deviation: LegSpaceDeviation;
  readonly poseAt: (time: number) => PoseDocument;
  /** Clearance that must be kept [mm]. */
  readonly least: number;
}

/** Names of the readings in the output. */
const NAMES: Readonly<Record<LegReading, string>> = {
  length: 'length_mm',
  speed: 'speed_mm_s',
  acceleration: 'acceleration_mm_s2',
  force: 'force_N',
  driveForce: 'driveForce_N',
  power: 'power_W',
};

/** Unit of what a violation states. */
const UNITS: Readonly<Record<MotionLimit | 'clearance', string>> = {
  shortestLeg: 'mm',
  longestLeg: 'mm',
  baseTilt: 'deg',
  platformTilt: 'deg',
  speed: 'mm/s',
  acceleration: 'mm/s^2',
  push: 'N',
  pull: 'N',
  power: 'W',
  clearance: 'mm',
};

/** The report as JSON: millimetres, degrees, newtons, watts, joules, seconds. */
export function motionOutput(
  document: DesignDocument,
  design: MovingDesign,
  report: MotionReport,
  { law, fastest, deviation, poseAt, least }: MotionContext,
) {
  const legs = Array.from({ length: LEG_COUNT }, (_, leg) => ({
    leg: leg + 1,
    ...Object.fromEntries(
      LEG_READINGS.map((reading, n) => {
        const { min, max, minAt, maxAt } = report.ranges[LEG_COUNT * n + leg];
        return [NAMES[reading], { min, max, minAt_s: minAt, maxAt_s: maxAt }];
      }),
    ),
    forceRms_N: report.forceRms[leg],
    energy_J: report.energy[leg],
  }));
  const violations = report.excursions.map((excursion) => violation(excursion, document, design, least, poseAt));
  return {
    duration_s: report.duration,
    fits: violations.length === 0 && report.crossings.length === 0,
    law,
    ...(fastest
      ? { fastest: { bareDuration_s: fastest.bareDuration, slowedBy: fastest.slowedBy, ramp_s: fastest.ramp } }
      : {}),
    legs,
    violations,
    singularCrossings_s: report.crossings,
    leastClearance_mm: report.clearance?.least ?? null,
    leastClearanceAt_s: report.clearance?.at ?? null,
    deviationLegSpace_mm: deviation.distance,
    deviationLegSpaceAt_s: deviation.distanceAt,
    deviationLegSpace_deg: degrees(deviation.turn),
    samples: report.samples,
    certainty: 'searched',
  };
}

/** A stretch past a limit: the value that is farthest past it, and the limit. */
function violation(
  { limit, leg, from, to, worst, worstAt }: Excursion,
  document: DesignDocument,
  design: MovingDesign,
  least: number,
  poseAt: MotionContext['poseAt'],
) {
  const bound = boundOf(limit, document, design, least);
  // margins are room left: below a least value the value is bound + margin, above a greatest one bound - margin
  const isAngle = limit === 'baseTilt' || limit === 'platformTilt';
  const margin = isAngle ? degrees(worst) : worst;
  const value = limit === 'shortestLeg' || limit === 'clearance' ? bound + margin : bound - margin;
  const times = { from_s: from, to_s: to, worst: value, worstAt_s: worstAt };
  return { limit, leg, ...times, unit: UNITS[limit], bound, by: -margin, pose: poseAt(worstAt) };
}

function boundOf(
  limit: MotionLimit | 'clearance',
  { joints }: DesignDocument,
  { mechanism, limits }: MovingDesign,
  least: number,
): number {
  switch (limit) {
    case 'shortestLeg':
      return mechanism.legs.min;
    case 'longestLeg':
      return mechanism.legs.max;
    case 'baseTilt':
      return joints.base.tilt_deg;
    case 'platformTilt':
      return joints.platform.tilt_deg;
    case 'clearance':
      return least;
    default:
      return limits[limit];
  }
}

/** What the violations are called in a sentence. */
const WORDS: Readonly<Record<MotionLimit | 'clearance', string>> = {
  shortestLeg: 'is too short',
  longestLeg: 'is too long',
  baseTilt: 'tilts its base joint too far',
  platformTilt: 'tilts its platform joint too far',
  speed: 'is too fast',
  acceleration: 'accelerates too much',
  push: 'pushes too hard',
  pull: 'pulls too hard',
  power: 'asks too much power',
  clearance: 'bodies come too near',
};

/** One line for every violation and singular pose. */
export function violationLines({
  violations,
  singularCrossings_s,
}: ReturnType<typeof motionOutput>): readonly string[] {
  return [
    ...violations.map(({ limit, leg, worst, bound, unit, from_s, to_s, worstAt_s }) => {
      const who = leg === null ? 'Two' : `Leg ${leg}`;
      const when = `from ${figure(from_s)} to ${figure(to_s)} s`;
      return `${who} ${WORDS[limit]} ${when}: ${figure(worst)} of ${figure(bound)} ${unit} at ${figure(worstAt_s)} s.`;
    }),
    ...singularCrossings_s.map((time) => `The motion passes a singular pose at ${figure(time)} s.`),
  ];
}
