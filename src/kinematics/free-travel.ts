import { failed, ok, type Result } from '../math/result.ts';
import { rotationFromAngles } from '../math/rotation.ts';
import type { DirectionBound, DirectionBounds } from './joint-shapes.ts';
import { LEG_COUNT } from './layout.ts';
import { type LegState, legStates, writeLegs } from './legs.ts';
import { LIMIT_SLACK, type LimitName } from './limits.ts';
import type { Mechanism } from './mechanism.ts';
import { type Pose, type PoseAngles, poseFromAngles } from './pose.ts';

/** The six numbers by which a pose is jogged, one at a time: tool point position, then the fixed-axis angles. */
export const FREEDOMS = ['x', 'y', 'z', 'roll', 'pitch', 'yaw'] as const;

export type Freedom = (typeof FREEDOMS)[number];

/** Where one number of the pose can go no further. */
export interface TravelStop {
  /** The number at the stop [mm or rad], the last value at which every limit holds. */
  readonly at: number;
  /** Leg, 1 to 6, and the limit that it meets. */
  readonly leg: number;
  readonly limit: LimitName;
}

/** How far one number of a pose can go while the other five stay; null where no limit was met as far as was searched. */
export interface FreeTravel {
  readonly freedom: Freedom;
  readonly down: TravelStop | null;
  readonly up: TravelStop | null;
  /** Step of the scan [mm or rad]: an interruption narrower than this can be missed. */
  readonly step: number;
}

/** Positions are scanned in steps of this share of the layout's size: 0.5 mm on a 100 mm ring. */
const POSITION_STEP_SHARE = 1 / 200;

/** Angles are scanned in steps of half a degree [rad]. */
const ANGLE_STEP = Math.PI / 360;

/** Angles are searched half a turn either way [rad]. */
const ANGLE_REACH = Math.PI;

/** The scan's last step is halved this often: to a millionth of it. */
const HALVINGS = 20;

/** A pose that breaks limits as it stands has no free travel; the fault lists the legs that break them. */
export type FreeTravelResult = Result<readonly FreeTravel[], readonly LegState[]>;

/**
 * How far each of the six numbers of a pose can go, alone, before which leg meets which limit. A scan in steps, so that a pose
 * which leaves the limits and comes back counts as left, then bisection; sampled, not proven: see {@link FreeTravel.step}.
 * @param from a pose [mm, rad] at which every limit holds
 */
export function freeTravel(mechanism: Mechanism, from: PoseAngles): FreeTravelResult {
  const limits = new LimitCheck(mechanism);
  if (!limits.hold(poseFromAngles(from))) {
    const broken = legStates(mechanism, poseFromAngles(from)).filter(({ violations }) => violations.length > 0);
    if (broken.length > 0) return failed(broken);
  }
  return ok(
    FREEDOMS.map((freedom, index) => {
      const step = index < 3 ? mechanism.size * POSITION_STEP_SHARE : ANGLE_STEP;
      // a leg cannot bridge a shift of more than its length here plus its greatest length
      const reach = index < 3 ? 2 * mechanism.legs.max : ANGLE_REACH;
      const stop = (sign: number) => firstStop(mechanism, limits, from, index, sign * step, reach);
      return { freedom, down: stop(-1), up: stop(1), step };
    }),
  );
}

/** The six numbers of a pose in the order of {@link FREEDOMS} [mm, rad]. */
export const poseNumber = ({ position, roll, pitch, yaw }: PoseAngles, index: number): number =>
  index < 3 ? position[index] : [roll, pitch, yaw][index - 3];

/** A pose with one of its six numbers replaced [mm or rad]. */
export function withPoseNumber(pose: PoseAngles, index: number, value: number): PoseAngles {
  const { position, roll, pitch, yaw } = pose;
  const pick = (own: number, old: number): number => (own === index ? value : old);
  return {
    position: [pick(0, position[0]), pick(1, position[1]), pick(2, position[2])],
    roll: pick(3, roll),
    pitch: pick(4, pitch),
    yaw: pick(5, yaw),
  };
}

function firstStop(
  mechanism: Mechanism,
  limits: LimitCheck,
  from: PoseAngles,
  index: number,
  signedStep: number,
  reach: number,
): TravelStop | null {
  const start = poseNumber(from, index);
  const holdsAt = (away: number): boolean => limits.holdNumbers(from, index, start + away);
  const steps = Math.ceil(reach / Math.abs(signedStep));
  for (let n = 1; n <= steps; n++) {
    if (holdsAt(n * signedStep)) continue;
    let inside = (n - 1) * signedStep;
    let outside = n * signedStep;
    for (let halving = 0; halving < HALVINGS; halving++) {
      const middle = (inside + outside) / 2;
      if (holdsAt(middle)) inside = middle;
      else outside = middle;
    }
    return stopBeyond(mechanism, withPoseNumber(from, index, start + outside), start + inside);
  }
  return null;
}

/** Names the limit that is broken just beyond a stop. */
function stopBeyond(mechanism: Mechanism, beyond: PoseAngles, at: number): TravelStop | null {
  const broken = legStates(mechanism, poseFromAngles(beyond)).find(({ violations }) => violations.length > 0);
  return broken ? { at, leg: broken.leg, limit: broken.violations[0] } : null;
}

/** Whether all limits hold at a pose, without allocation per pose. */
class LimitCheck {
  private readonly vectors = new Float64Array(3 * LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly minLength: number;
  private readonly maxLength: number;
  private readonly baseCosine: number;
  private readonly platformCosine: number;

  constructor(private readonly mechanism: Mechanism) {
    const { legs, size, tiltLimit } = mechanism;
    this.minLength = legs.min - LIMIT_SLACK * size;
    this.maxLength = legs.max + LIMIT_SLACK * size;
    this.baseCosine = leastCosine(tiltLimit.base);
    this.platformCosine = leastCosine(tiltLimit.platform);
  }

  /** The limits at a pose with one of its six numbers replaced. */
  holdNumbers(from: PoseAngles, index: number, value: number): boolean {
    const angles = withPoseNumber(from, index, value);
    return this.hold({ p_BoTo_B: angles.position, R_BP: rotationFromAngles(angles) });
  }

  hold(pose: Pose): boolean {
    const { mechanism, vectors, lengths } = this;
    writeLegs(mechanism, pose, vectors, lengths);
    const R = pose.R_BP;
    const { baseAxes_B: a, platformAxes_P: b, crossJoints } = mechanism;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const size = lengths[leg];
      if (size < this.minLength || size > this.maxLength) return false;
      const i = 3 * leg;
      const x = vectors[i];
      const y = vectors[i + 1];
      const z = vectors[i + 2];
      if (crossJoints.base) {
        if (!boundsHold(crossJoints.base[leg].bounds, x, y, z, size)) return false;
        // cosine of the base tilt times the length: leg . base axis
      } else if (x * a[i] + y * a[i + 1] + z * a[i + 2] < this.baseCosine * size) return false;
      // the leg seen from the platform joint, in platform axes: -R^T leg
      const px = -(R[0] * x + R[3] * y + R[6] * z);
      const py = -(R[1] * x + R[4] * y + R[7] * z);
      const pz = -(R[2] * x + R[5] * y + R[8] * z);
      if (crossJoints.platform) {
        if (!boundsHold(crossJoints.platform[leg].bounds, px, py, pz, size)) return false;
      } else if (px * b[i] + py * b[i + 1] + pz * b[i + 2] < this.platformCosine * size) return false;
    }
    return true;
  }
}

/** Cosines of unit vectors carry some 1e-16. */
const COSINE_ROUNDING = 4 * Number.EPSILON;

/** Cosine below which a tilt limit is broken; a half angle of pi is none. */
const leastCosine = (tiltLimit: number): number =>
  tiltLimit + LIMIT_SLACK >= Math.PI ? -2 : Math.cos(tiltLimit + LIMIT_SLACK) - COSINE_ROUNDING;

/** Whether a leg (x, y, z) of length `size` keeps the bounds of its joint; a bound's own angle has the slack of all limits. */
function boundsHold({ all, either }: DirectionBounds, x: number, y: number, z: number, size: number): boolean {
  for (const bound of all) if (!boundHolds(bound, x, y, z, size)) return false;
  return either === null || boundHolds(either[0], x, y, z, size) || boundHolds(either[1], x, y, z, size);
}

function boundHolds({ w, least }: DirectionBound, x: number, y: number, z: number, size: number): boolean {
  // cos(angle + slack) = cos(angle) - slack sin(angle), to 1e-24
  const slackened = least - LIMIT_SLACK * Math.sqrt(1 - least * least) - COSINE_ROUNDING;
  return x * w[0] + y * w[1] + z * w[2] >= slackened * size;
}
