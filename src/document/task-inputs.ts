import type { Mechanism } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { seriesStiffness } from '../kinematics/stiffness.ts';
import type { TaskParts } from '../task/judge-requirement.ts';
import { NO_FREE } from '../task/piece.ts';
import type { Region, Requirement, TaskLimits } from '../task/requirement.ts';
import { type Floor, QUANTITIES, QUANTITY_NAMES, type QuantityName } from '../terms/quantities.ts';
import { radians } from '../terms/units.ts';
import type { DesignContent, RequirementDocument } from './design.ts';
import { floorsFromDocument, isAngle } from './floors.ts';
import { type JudgementInputs, judgementInputs } from './judgement-inputs.ts';
import { poseAnglesFromDocument } from './units.ts';

/**
 * The requirements of a design's task, in millimetres and radians.
 * @param floors what every requirement must keep that has no limit of its own; the design's list if left out
 */
export function requirementsOf(
  design: DesignContent,
  mechanism: Mechanism,
  floors: readonly Floor[] = floorsFromDocument(design),
): readonly Requirement[] {
  const kept: TaskLimits = Object.fromEntries(floors.map(({ quantity, value }) => [quantity, value]));
  return (design.task?.requirements ?? []).map((requirement): Requirement => {
    const { payload = design.payload, load = design.load } = requirement;
    const { payload: _payload, load: _load, ...bare } = design;
    const carried = { ...bare, ...(payload ? { payload } : {}), ...(load ? { load } : {}) };
    const inputs = judgementInputs(carried, mechanism);
    const { sidePush } = requirement;
    return {
      name: requirement.name,
      must: requirement.must ?? true,
      region: regionOf(requirement, poseAnglesFromDocument(design.home)),
      limits: { ...kept, ...ownLimits(requirement) },
      load: inputs.load,
      push: { force: sidePush?.size_N ?? 0, torque: sidePush?.size_N_mm ?? 0 },
      clearance: inputs.clearance,
    };
  });
}

/** What is known of the parts, for the judgement of a task. */
export function taskPartsOf(design: DesignContent, { errors, stiffness }: JudgementInputs): TaskParts {
  const springs = stiffness && seriesStiffness(stiffness);
  return { errors, springs: springs?.ok ? springs.value : null, freeSpin: freeSpinOf(design) };
}

/** Why the legs may turn about themselves; null where they cannot, or nothing says that they do. */
function freeSpinOf({ legs, joints }: DesignContent): string | null {
  const turns = joints.base.kind !== 'universal' && joints.platform.kind !== 'universal';
  if (legs.rodKeyed !== false || !legs.screwLead_mm || !turns) return null;
  return 'the rods are not keyed and both ends let a leg turn: whether its screw moves it or spins it depends on the friction of its balls, which is not known; key the rods, or take a universal joint at one end';
}

function ownLimits(requirement: RequirementDocument): TaskLimits {
  const own: Partial<Record<QuantityName, number>> = {};
  for (const quantity of QUANTITY_NAMES) {
    const value = requirement[QUANTITIES[quantity].inFile];
    if (value !== undefined) own[quantity] = isAngle(quantity) ? radians(value) : value;
  }
  const { jointPull_N } = requirement;
  return jointPull_N === undefined ? own : { ...own, jointPull: jointPull_N };
}

/** Half ranges as the file writes them; what is left out does not move. */
type HalfRanges = Pick<
  NonNullable<RequirementDocument['box']>,
  'x_mm' | 'y_mm' | 'z_mm' | 'roll_deg' | 'pitch_deg' | 'yaw_deg'
>;

const halfRanges = ({
  x_mm = 0,
  y_mm = 0,
  z_mm = 0,
  roll_deg = 0,
  pitch_deg = 0,
  yaw_deg = 0,
}: HalfRanges): PoseAngles => ({
  position: [x_mm, y_mm, z_mm],
  roll: radians(roll_deg),
  pitch: radians(pitch_deg),
  yaw: radians(yaw_deg),
});

const AXES = ['x_mm', 'y_mm', 'z_mm', 'roll_deg', 'pitch_deg', 'yaw_deg'] as const;

function regionOf({ box, round, poses }: RequirementDocument, home: PoseAngles): Region {
  if (poses) return { kind: 'poses', poses: poses.map(poseAnglesFromDocument) };
  if (round) {
    const { radius_mm = 0, x_mm = radius_mm, y_mm = radius_mm, z_mm = radius_mm, tilt_deg = 0, yaw_deg = 0 } = round;
    return {
      kind: 'round',
      about: round.about ? poseAnglesFromDocument(round.about) : home,
      semiAxes: [x_mm, y_mm, z_mm],
      tilt: radians(tilt_deg),
      yaw: radians(yaw_deg),
    };
  }
  const { free = {}, about, each = 'together', ...asked } = box ?? {};
  return {
    kind: 'box',
    about: about ? poseAnglesFromDocument(about) : home,
    half: halfRanges({ ...asked, ...free }),
    free: box?.free ? AXES.map((axis) => free[axis] !== undefined) : NO_FREE,
    each,
  };
}
