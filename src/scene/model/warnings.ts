import { type JointReading, shapeReadings, tightest } from '../../kinematics/joint-readings.ts';
import type { JointShape } from '../../kinematics/joint-shapes.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { LimitName } from '../../kinematics/limits.ts';
import { rotateBack } from '../../math/rotation.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';
import type { NearestBodies } from '../../state/design/nearest-bodies.ts';
import { degrees } from '../../terms/units.ts';
import type { SceneView } from './scene-view.ts';

/** Something written beside the place it concerns: a broken limit, bodies that meet, or a distance that was asked for. */
export interface Warning {
  /** 1 to 6; 0 for what is no single leg's. */
  readonly leg: number;
  readonly limit: LimitName | 'meet' | 'near' | 'apart';
  /** As it stands beside the leg or joint: "leg 3 too long 214.2 mm". */
  readonly words: string;
  /** Place in base axes [mm]. */
  readonly anchor: Vec3;
}

/** Every broken limit of a pose, leg by leg, and then the nearest two bodies where they are marked. */
export function poseWarnings(view: Pick<SceneView, 'legs' | 'drawnLegs' | 'parts' | 'pose' | 'nearest'>): Warning[] {
  const broken = view.legs.flatMap((leg, index) =>
    leg.violations.map((limit) => ({
      leg: leg.leg,
      limit,
      words: `leg ${leg.leg} ${warningWords(leg, limit, view)}`,
      anchor: warningAnchor(view.drawnLegs[index], limit),
    })),
  );
  return view.nearest ? [...broken, pairMark(view.nearest)] : broken;
}

const pairMark = ({ from, to, words, state }: NearestBodies): Warning => ({
  leg: 0,
  limit: state,
  words,
  anchor: scale(add(from, to), 0.5),
});

function warningWords(leg: LegState, limit: LimitName, { parts, pose }: Pick<SceneView, 'parts' | 'pose'>): string {
  const length = `${leg.length.toFixed(1)} mm`;
  const toBase = rotateBack(pose.R_BP, scale(leg.u_B, -1));
  switch (limit) {
    case 'legTooShort':
      return `too short ${length}`;
    case 'legTooLong':
      return `too long ${length}`;
    case 'baseJoint':
      return `base ${jointWords(parts.shapes.base[leg.leg - 1], leg.u_B)}`;
    case 'platformJoint':
      return `platform ${jointWords(parts.shapes.platform[leg.leg - 1], toBase)}`;
  }
}

const ABOUT: Readonly<Record<JointReading['about'], string>> = {
  mount: 'joint',
  bolt: 'bolt tilt',
  first: 'axis 1',
  second: 'axis 2',
};

/** "joint 26.3 of 25 deg", or which angle it is where a joint has others than its tilt. */
function jointWords(shape: JointShape, d: Vec3): string {
  const { about, angle, limit } = tightest(shapeReadings(shape, d));
  return `${ABOUT[about]} ${degrees(angle).toFixed(1)} of ${degrees(limit).toFixed(0)} deg`;
}

function warningAnchor(leg: LegState, limit: LimitName): Vec3 {
  if (limit === 'baseJoint') return leg.baseJoint_B;
  if (limit === 'platformJoint') return leg.platformJoint_B;
  // between barrel and rod, where a leg that is pulled too far comes apart
  return add(leg.baseJoint_B, scale(leg.u_B, 0.68 * leg.length));
}
