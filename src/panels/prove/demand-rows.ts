import type { JointShape } from '../../kinematics/joint-shapes.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { poseNumbers } from '../../reach/pose-box.ts';
import type { BoxDemands, Demand } from '../../reach/prove/box-demands.ts';
import { degrees } from '../../terms/units.ts';
import { fixedText, roundedText, three } from '../../words/numbers.ts';

/** What a box asks of one kind of part, in words, millimetres and degrees. */
export interface DemandRow {
  readonly part: string;
  readonly asked: string;
  readonly limit: string;
  readonly holds: boolean;
  /** Which leg, where, and how far past the limit. */
  readonly where: string;
  readonly pose: PoseAngles;
}

/** The four rows: both leg lengths, both plates' joints. */
export function demandRows({ legs, tiltLimit }: Mechanism, demands: BoxDemands): readonly DemandRow[] {
  const { shortest, longest, joints } = demands;
  const jointRow = (plate: PlateName): DemandRow => {
    const { kind, tilt, room } = joints[plate];
    const [part, asked, limit] =
      tilt === null
        ? [`Least room, ${plate} ${KIND_WORDS[kind]}`, room, '≥ 0 deg']
        : [`Largest ${plate} tilt`, tilt, `≤ ${roundedText(degrees(tiltLimit[plate]), 2)} deg`];
    return row(part, `${fixedText(degrees(asked), 1)} deg`, limit, joints[plate], `${three(-degrees(room))} deg`);
  };
  return [
    row(
      'Shortest leg',
      `${fixedText(shortest.length, 1)} mm`,
      `≥ ${roundedText(legs.min, 2)} mm`,
      shortest,
      `${three(-shortest.room)} mm`,
    ),
    row(
      'Longest leg',
      `${fixedText(longest.length, 1)} mm`,
      `≤ ${roundedText(legs.max, 2)} mm`,
      longest,
      `${three(-longest.room)} mm`,
    ),
    jointRow('base'),
    jointRow('platform'),
  ];
}

const KIND_WORDS: Readonly<Record<JointShape['kind'], string>> = {
  ball: 'balls',
  rodEnd: 'rod ends',
  universal: 'universal joints',
};

/** @param past how far past the limit, said only where it is */
function row(part: string, asked: string, limit: string, { leg, pose, holds }: Demand, past: string): DemandRow {
  return {
    part,
    asked,
    limit,
    holds,
    where: `Leg ${leg}${holds ? '' : `, ${past} past it,`} at ${briefPose(pose)}`,
    pose,
  };
}

/** "x 20, y −20, z 130 mm, roll 10, pitch −10, yaw 10 deg", to two digits at most. */
function briefPose(pose: PoseAngles): string {
  const [x, y, z, roll, pitch, yaw] = Array.from(poseNumbers(pose), (value, index) =>
    roundedText(index < 3 ? value : degrees(value), 2),
  );
  return `x ${x}, y ${y}, z ${z} mm, roll ${roll}, pitch ${pitch}, yaw ${yaw} deg`;
}
