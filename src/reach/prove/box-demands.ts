import { jointShapes, jointStates } from '../../kinematics/joint-limits.ts';
import { type JointShape, jointMargin } from '../../kinematics/joint-shapes.ts';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import { writeLegs } from '../../kinematics/legs.ts';
import { LIMIT_SLACK } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type PoseAngles, poseFromAngles } from '../../kinematics/pose.ts';
import { type Mat3, rotate } from '../../math/rotation.ts';
import { dot, type Vec3 } from '../../math/vec3.ts';
import type { PoseBox } from '../pose-box.ts';

/** The most that a box of poses asks of one kind of part, and where. */
export interface Demand {
  /** The leg that is asked the most, 1 to 6, and the pose at which it is. */
  readonly leg: number;
  readonly pose: PoseAngles;
  /** Room left to the present limit, negative past it: [mm] of a leg length, [rad] of a joint. */
  readonly room: number;
  /** Whether the present limit allows it, a pose exactly on the limit included. */
  readonly holds: boolean;
}

export interface LengthDemand extends Demand {
  /** Pin to pin [mm]. */
  readonly length: number;
}

export interface JointDemand extends Demand {
  readonly kind: JointShape['kind'];
  /** Tilt from the mount axis [rad] where the joints are balls; null for other kinds, whose limit is no one angle. */
  readonly tilt: number | null;
}

/** What a box of poses asks of legs and joints. */
export interface BoxDemands {
  readonly shortest: LengthDemand;
  readonly longest: LengthDemand;
  readonly joints: Readonly<Record<PlateName, JointDemand>>;
  /** Poses looked at. */
  readonly poses: number;
}

/**
 * Largest demands over the corners of a box, the mid-points of its edges and of its faces of every dimension, and its centre: at most 3^6
 * poses. Sampled: between them a little more may be asked, which only a proof settles.
 */
export function boxDemands(mechanism: Mechanism, box: PoseBox): BoxDemands {
  const shapes = jointShapes(mechanism);
  const found = { shortest: new Least(), longest: new Least(), base: new Least(), platform: new Least() };
  const positions = steppedTriples(box.centre.position, box.half.position);
  const turns = steppedTriples(turnOf(box.centre), turnOf(box.half));
  const vectors = new Float64Array(3 * LEG_COUNT);
  const lengths = new Float64Array(LEG_COUNT);
  const u_B: [number, number, number] = [0, 0, 0];
  const back_B: [number, number, number] = [0, 0, 0];
  for (const [roll, pitch, yaw] of turns) {
    const { R_BP } = poseFromAngles({ position: box.centre.position, roll, pitch, yaw });
    const platformShapes_B = shapes.platform.map((shape) => turned(shape, R_BP));
    for (const position of positions) {
      const angles = { position, roll, pitch, yaw };
      writeLegs(mechanism, { R_BP, p_BoTo_B: position }, vectors, lengths);
      for (let leg = 0; leg < LEG_COUNT; leg++) {
        const length = lengths[leg];
        for (let axis = 0; axis < 3; axis++) {
          u_B[axis] = length > 0 ? vectors[3 * leg + axis] / length : 0;
          back_B[axis] = -u_B[axis];
        }
        found.shortest.offer(length, leg, angles);
        found.longest.offer(-length, leg, angles);
        found.base.offer(roomOrder(shapes.base[leg], u_B), leg, angles);
        found.platform.offer(roomOrder(platformShapes_B[leg], back_B), leg, angles);
      }
    }
  }
  const { legs, size, tiltLimit } = mechanism;
  const lengthDemand = (least: Least, length: number, room: number): LengthDemand => ({
    ...least.where(),
    length,
    room,
    holds: room >= -LIMIT_SLACK * size,
  });
  const jointDemand = (plate: PlateName): JointDemand => {
    const { kind } = shapes[plate][0];
    const { leg, pose } = found[plate].where();
    const state = jointStates(mechanism, poseFromAngles(pose))[leg - 1];
    const room = plate === 'base' ? state.baseMargin : state.platformMargin;
    const tilt = kind === 'ball' ? tiltLimit[plate] - room : null;
    return { leg, pose, room, holds: room >= -LIMIT_SLACK, kind, tilt };
  };
  const [least, most] = [found.shortest.value, -found.longest.value];
  return {
    shortest: lengthDemand(found.shortest, least, least - legs.min),
    longest: lengthDemand(found.longest, most, legs.max - most),
    joints: { base: jointDemand('base'), platform: jointDemand('platform') },
    poses: positions.length * turns.length,
  };
}

/** At both ends and in the middle of a pose number's range. */
const STEPS = [-1, 0, 1] as const;

/** A pose number that does not vary has its one value. */
const ONE_STEP = [0] as const;

/** Every choice of three numbers of a pose at both ends and in the middle of their ranges. */
function steppedTriples(middle: Vec3, half: Vec3): readonly Vec3[] {
  const values = (axis: 0 | 1 | 2): readonly number[] =>
    (half[axis] === 0 ? ONE_STEP : STEPS).map((step) => middle[axis] + step * half[axis]);
  return values(0).flatMap((a) => values(1).flatMap((b) => values(2).map((c): Vec3 => [a, b, c])));
}

const turnOf = ({ roll, pitch, yaw }: PoseAngles): Vec3 => [roll, pitch, yaw];

/** A platform joint in base axes. */
function turned(shape: JointShape, R_BP: Mat3): JointShape {
  switch (shape.kind) {
    case 'ball':
      return { ...shape, axis: rotate(R_BP, shape.axis) };
    case 'rodEnd':
      return { ...shape, bolt: rotate(R_BP, shape.bolt) };
    case 'universal':
      return { ...shape, axis: rotate(R_BP, shape.axis), first: rotate(R_BP, shape.first) };
  }
}

/** A number that is the less the less room a joint of one plate has left; without inverse functions where it can do without them. */
function roomOrder(shape: JointShape, d: Vec3): number {
  switch (shape.kind) {
    case 'ball':
      return dot(shape.axis, d);
    case 'rodEnd':
      return -Math.abs(dot(shape.bolt, d));
    case 'universal':
      return jointMargin(shape, d);
  }
}

/** The least of the values offered, with the first leg and pose that it was offered for. */
class Least {
  value = Number.POSITIVE_INFINITY;
  #leg = 0;
  #pose: PoseAngles | null = null;

  offer(value: number, leg: number, pose: PoseAngles): void {
    if (value >= this.value) return;
    this.value = value;
    this.#leg = leg;
    this.#pose = pose;
  }

  where(): Pick<Demand, 'leg' | 'pose'> {
    if (!this.#pose) throw new Error('a box has at least one pose');
    return { leg: this.#leg + 1, pose: this.#pose };
  }
}
