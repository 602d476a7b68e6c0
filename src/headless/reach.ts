import { mechanismFromDocument } from '../document/units.ts';
import { assessArchitecture } from '../kinematics/architecture.ts';
import { LIMIT_NAMES, LIMIT_WORDS } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { type Mat3, rotationFromAngles } from '../math/rotation.ts';
import type { ExcludingLimit } from '../reach/columns/deepest-point.ts';
import { measureReach } from '../reach/columns/meter.ts';
import { reachOverTilt, type TiltedReach } from '../reach/columns/over-tilt.ts';
import type { EmptyReason, HomeReason, ReachBox, ReachMeasure } from '../reach/columns/reach-measure.ts';
import { degrees, radians } from '../terms/units.ts';
import { designVerb } from './design-verb.ts';
import { figure } from './findings.ts';
import { FLOOR, floorFaults, floorsOf, KEEP, keptNumbers } from './floors.ts';
import { jsonText } from './json-output.ts';
import { ERROR, ORIENTATION, TILT_RANGE, YAW_RANGE } from './options.ts';
import { usableOutput } from './usable.ts';
import { done, refused } from './verb.ts';

/** Error asked for where none is given, relative. */
const DEFAULT_ERROR = 0.005;

/** Most columns in one lattice: some seconds of work, for the smallest errors that may be asked. */
const MAX_COLUMNS = 4_000_000;

/** The same for many orientations at once, each of which costs as much as one. */
const MAX_COLUMNS_OVER_RANGE = 100_000;

/** [mm^3] in a cm^3. */
const CUBIC_CENTIMETRE = 1000;

/** The volume that the tool point reaches at one orientation, or at all orientations of a range. */
export const reach = designVerb({
  options: [ORIENTATION, TILT_RANGE, YAW_RANGE, ERROR, KEEP, FLOOR],
  run(document, request) {
    const mechanism = mechanismFromDocument(document);
    const relativeError = request.get(ERROR) ?? DEFAULT_ERROR;
    const R_BP = orientationOf(request.get(ORIENTATION)) ?? mechanism.home.R_BP;
    const floors = floorsOf(keptNumbers(request), document);
    const faults = floorFaults(floors, document);
    if (faults.length > 0) return refused(faults);
    const single = measureReach(mechanism, R_BP, { relativeError, maxColumns: MAX_COLUMNS });
    const usable = usableOutput(document, mechanism, single, R_BP, floors);
    const [tilt_deg, yaw_deg] = [request.get(TILT_RANGE), request.get(YAW_RANGE)];
    if (tilt_deg === undefined && yaw_deg === undefined) {
      return done(jsonText({ ...measureOutput(single), ...usable.output }), [
        ...findings(mechanism, single),
        ...usable.findings,
      ]);
    }
    const tilt = radians(tilt_deg ?? 0);
    const yaw = radians(yaw_deg ?? 0);
    const maxColumns = MAX_COLUMNS_OVER_RANGE;
    const over = reachOverTilt(mechanism, { tilt, yaw, R_BP, relativeError, maxColumns });
    const ranged = rangeOutput(over, single);
    const atMiddle = { ...ranged.atMiddle, ...usable.output };
    return done(jsonText({ ...ranged, atMiddle }), [...findings(mechanism, over), ...usable.findings]);
  },
});

const measureOutput = (measured: ReachMeasure) => ({
  volume_cm3: measured.volume / CUBIC_CENTIMETRE,
  errorEstimate: measured.errorEstimate,
  settled: measured.settled,
  homeConnected_cm3: measured.home.volume / CUBIC_CENTIMETRE,
  islands: measured.home.islands,
  bounds_mm: boxOutput(measured.bounds),
  homeBounds_mm: boxOutput(measured.home.bounds),
  binding: measured.boundary.byLimit,
  bindingByLeg: measured.boundary.byLeg,
});

/** The common reach of a range of orientations, which are sampled, with the reach at its middle beside it. */
const rangeOutput = (over: TiltedReach, single: ReachMeasure) => ({
  ...measureOutput(over),
  // both errors count: the columns', and what a finer sample of orientations would still take away
  errorEstimate: over.errorEstimate + over.samplingChange,
  settled: over.settled && over.samplingSettled,
  range: {
    tilt_deg: degrees(over.range.tilt),
    yaw_deg: degrees(over.range.yaw),
    sampledOrientations: over.sampledOrientations,
    samplingChange: over.samplingChange,
  },
  atMiddle: { volume_cm3: single.volume / CUBIC_CENTIMETRE, homeConnected_cm3: single.home.volume / CUBIC_CENTIMETRE },
});

function orientationOf(angles: readonly number[] | undefined): Mat3 | null {
  if (!angles) return null;
  const [roll, pitch, yaw] = angles.map(radians);
  return rotationFromAngles({ roll, pitch, yaw });
}

const boxOutput = (box: ReachBox | null) => box && { low: box.low, high: box.high };

function findings(mechanism: Mechanism, { empty, home }: ReachMeasure): readonly string[] {
  const { singularEverywhere } = assessArchitecture(mechanism);
  return [
    ...(empty ? [`Nothing is reachable: ${emptyText(empty)}`] : []),
    ...(!empty && home.reason ? [`Nothing is connected with home: ${homeText(home.reason)}`] : []),
    ...(singularEverywhere ? ['The platform is singular at every pose: what it reaches it cannot hold.'] : []),
  ];
}

function emptyText(reason: EmptyReason): string {
  switch (reason.kind) {
    case 'lengthsReversed':
      return 'the shortest leg is longer than the longest.';
    case 'noStroke':
      return 'the legs have no stroke.';
    case 'excluded':
      return `at the best place the limits miss by ${figure(reason.shortfall)} mm (${limitList(reason.limits)}).`;
    case 'tooSmall':
      return `what could be reached leaves ${figure(reason.room)} mm of room.`;
  }
}

const homeText = (reason: HomeReason): string =>
  reason.kind === 'homeTooThin'
    ? 'its surroundings are too thin to measure.'
    : `it breaks limits at this orientation (${limitList(reason.limits)}).`;

/** Limits with their legs: "leg too long, legs 1 4; base joint, leg 2". */
function limitList(limits: readonly ExcludingLimit[]): string {
  const named = LIMIT_NAMES.map((name) => ({ name, legs: limits.filter(({ limit }) => limit === name) }));
  return named
    .filter(({ legs }) => legs.length > 0)
    .map(
      ({ name, legs }) =>
        `${LIMIT_WORDS[name]}, leg${legs.length > 1 ? 's' : ''} ${legs.map(({ leg }) => leg).join(' ')}`,
    )
    .join('; ');
}
