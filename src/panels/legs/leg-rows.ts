import { type JointShapes, jointShapes, type LegTwist } from '../../kinematics/joint-limits.ts';
import type { JointReading, LegJointReadings } from '../../kinematics/joint-readings.ts';
import type { JointShape } from '../../kinematics/joint-shapes.ts';
import type { JudgedPose } from '../../kinematics/judge.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { LimitName } from '../../kinematics/limits.ts';
import { degrees } from '../../terms/units.ts';
import { withMinus } from '../../words/numbers.ts';

/** Where the legs' joints stand at a pose, and how far the legs have twisted where universal joints hold both their ends. */
export interface LegJoints {
  readonly shapes: JointShapes;
  readonly readings: readonly LegJointReadings[];
  readonly twists: readonly LegTwist[] | null;
}

export const legJoints = ({
  mechanism,
  joints,
  twists,
}: Pick<JudgedPose, 'mechanism' | 'joints' | 'twists'>): LegJoints => ({
  shapes: jointShapes(mechanism),
  readings: joints,
  twists,
});

/** A joint's cell: its limited angles in degrees as text, and how much of its limit the worst of them uses. */
export interface JointCell {
  readonly text: string;
  readonly share: number;
}

export const jointCell = (readings: readonly JointReading[]): JointCell => ({
  text: readings.map(({ angle }) => degrees(angle).toFixed(1)).join('/'),
  share: Math.max(...readings.map(({ angle, limit }) => angle / limit)),
});

const ABOUT: Readonly<Record<JointShape['kind'], string>> = {
  ball: 'tilt',
  rodEnd: 'bolt tilt',
  universal: '1/2',
};

/** What stands over a column of joints: "tilt", "bolt tilt" or "1/2" for the two axes, and the limits. */
export function jointHeading(readings: readonly JointReading[], kind: JointShape['kind']) {
  const limits = readings.map(({ limit }) => +degrees(limit).toFixed(1));
  return { angle: ABOUT[kind], limit: `≤ ${limits.join('/')} deg` };
}

/** Spoken and shown when pointed at. */
export const JOINT_SAYS: Readonly<Record<JointShape['kind'], string>> = {
  ball: 'Tilt from the mount axis.',
  rodEnd: 'Tilt out of the plane square to the bolt; free round the bolt.',
  universal: '1: angle about the first axis, which is fixed to the plate; 2: about the second.',
};

const WARNINGS: Readonly<Record<LimitName, string>> = {
  legTooShort: 'too short',
  legTooLong: 'too long',
  baseJoint: 'base tilt over',
  platformJoint: 'platform tilt over',
};

export const warningOf = ({ violations }: LegState): string => violations.map((limit) => WARNINGS[limit]).join(', ');

const signed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  return Number(text) > 0 ? `+${text}` : withMinus(text.replace(/^-(0(\.0+)?)$/, '$1'));
};

/** "+12.3" degrees, with the change of length in millimetres, "+12.3 / +0.274", where the screw's lead is stated. */
export function twistText({ twist, lengthChange }: LegTwist, leadStated: boolean): string {
  const turned = signed(degrees(twist), 1);
  return leadStated ? `${turned} / ${signed(lengthChange, 3)}` : turned;
}
