import type { CrossAxis, JointKind } from '../kinematics/joint-kinds.ts';
import {
  compileMechanism,
  type JointSpec,
  type Mechanism,
  type Mount,
  type PlateLayout,
} from '../kinematics/mechanism.ts';
import { anglesFromPose, type Pose, type PoseAngles, poseFromAngles } from '../kinematics/pose.ts';
import { degrees, radians } from '../terms/units.ts';
import type {
  CrossAxisDocument,
  DesignContent,
  JointDocument,
  MountDocument,
  PlateDocument,
  PoseDocument,
} from './design.ts';
import { RANGES } from './ranges.ts';

/** Compiles a design file's content: the one place where its degrees become radians. Every joint has the limits of its kind. */
export const mechanismFromDocument = (document: DesignContent): Mechanism =>
  compileMechanism({
    base: plateLayout(document.base),
    platform: plateLayout(document.platform),
    legs: {
      min: document.legs.min_mm,
      max: document.legs.max_mm,
      barrelDiameter: document.legs.barrelDiameter_mm,
      rodDiameter: document.legs.rodDiameter_mm,
    },
    joints: { base: jointSpec(document.joints.base), platform: jointSpec(document.joints.platform) },
    tool: document.tool.point_mm,
    home: poseFromDocument(document.home),
    ...(document.characteristicLength_mm === undefined
      ? {}
      : { characteristicLength: document.characteristicLength_mm }),
  });

/** Whether every joint is a ball in a socket, whose limit is a cone. */
export const onlyBalls = ({ joints }: DesignContent): boolean =>
  joints.base.kind === 'ball' && joints.platform.kind === 'ball';

/** A pose as the file writes it, as the kinematics takes it. */
export const poseFromDocument = (pose: PoseDocument): Pose => poseFromAngles(poseAnglesFromDocument(pose));

/** A pose as the file writes it, its angles in radians. */
export const poseAnglesFromDocument = (pose: PoseDocument): PoseAngles => ({
  position: pose.position_mm,
  roll: radians(pose.roll_deg),
  pitch: radians(pose.pitch_deg),
  yaw: radians(pose.yaw_deg),
});

/** A pose as the file writes it; inverse of {@link poseFromDocument} up to rounding, with pitch from -90 to 90 deg. */
export const documentFromPose = (pose: Pose): PoseDocument => documentFromPoseAngles(anglesFromPose(pose));

/** Inverse of {@link poseAnglesFromDocument} up to rounding. */
export const documentFromPoseAngles = ({ position, roll, pitch, yaw }: PoseAngles): PoseDocument => ({
  position_mm: position,
  roll_deg: degrees(roll),
  pitch_deg: degrees(pitch),
  yaw_deg: degrees(yaw),
});

function plateLayout(plate: PlateDocument): PlateLayout {
  if ('points_mm' in plate) return { kind: 'points', points: Float64Array.from(plate.points_mm.flat()) };
  const { radius_mm, gap_deg, turn_deg, jointHeight_mm, holes } = plate.ring;
  return {
    kind: 'ring',
    ring: {
      radius: radius_mm,
      gap: radians(gap_deg),
      turn: radians(turn_deg),
      jointHeight: jointHeight_mm,
      ...(holes ? { holes: { count: holes.count, start: radians(holes.start_deg) } } : {}),
    },
  };
}

function jointKind(joint: JointDocument): JointKind {
  if (joint.kind === 'rodEnd') return { kind: 'rodEnd', bolt: crossAxis(joint.bolt) };
  if (joint.kind === 'ball') return { kind: 'ball' };
  const secondLimit = radians(joint.secondTilt_deg ?? Math.min(joint.tilt_deg, RANGES.secondTilt_deg.max));
  return { kind: 'universal', first: crossAxis(joint.firstAxis), secondLimit };
}

function crossAxis(axis: CrossAxisDocument = 'acrossLeg'): CrossAxis {
  if (typeof axis === 'string') return { kind: axis };
  return { kind: 'angles', toward: Float64Array.from(axis.toward_deg, radians), rise: radians(axis.rise_deg) };
}

const jointSpec = (joint: JointDocument): JointSpec => ({
  tiltLimit: radians(joint.tilt_deg),
  mount: mountOf(joint.mount),
  ...(joint.kind === 'ball' ? {} : { kind: jointKind(joint) }),
});

function mountOf(mount: MountDocument): Mount {
  if (mount === 'square' || mount === 'aimed') return { kind: mount };
  return { kind: 'leaning', lean: radians(mount.lean_deg), toward: Float64Array.from(mount.toward_deg, radians) };
}
