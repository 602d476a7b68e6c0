import { recordOf } from '../math/record.ts';
import { FLOOR_NAMES } from '../terms/quantities.ts';
import { measure, vector } from './field-kinds.ts';
import { load, payload } from './judgement-fields.ts';
import { z } from './zod.ts';

/** Most requirements of a task, and poses of one: more than anyone types, few enough to judge while a slider moves. */
export const MOST_REQUIREMENTS = 20;
export const MOST_POSES = 200;

/** Most axes of a requirement that are chosen freely: the best value of each is sought at every pose. */
export const MOST_FREE_AXES = 2;

/** Most paths that may be locked, or free. */
export const MOST_PATHS = 100;

/** How the ranges of a box are asked for, in the order in which lists name them. */
export const EACH_WAYS = ['together', 'alone'] as const;

/** since version 1 */
const pose = z
  .strictObject({
    position_mm: vector('position_mm'),
    roll_deg: measure('roll_deg'),
    pitch_deg: measure('pitch_deg'),
    yaw_deg: measure('yaw_deg'),
  })
  .describe('Tool point in the base frame, and R = Rz(yaw) Ry(pitch) Rx(roll).');

const halfRanges = {
  x_mm: measure('x_mm').exactOptional(),
  y_mm: measure('y_mm').exactOptional(),
  z_mm: measure('z_mm').exactOptional(),
  roll_deg: measure('roll_deg').exactOptional(),
  pitch_deg: measure('pitch_deg').exactOptional(),
  yaw_deg: measure('yaw_deg').exactOptional(),
};

const about = pose.describe('The middle; the home pose if left out.').exactOptional();

/** since version 1 */
const box = z
  .strictObject({
    ...halfRanges,
    about,
    each: z.enum(EACH_WAYS).describe('All ranges at the same time (if left out), or one at a time.').exactOptional(),
    free: z
      .strictObject(halfRanges)
      .describe('Ranges of axes that do not matter: at each pose the best value is taken.')
      .exactOptional(),
  })
  .describe('Half ranges of the six pose numbers about a pose; what is left out does not move.');

/** since version 1 */
const round = z
  .strictObject({
    radius_mm: measure('radius_mm').exactOptional(),
    x_mm: measure('x_mm').exactOptional(),
    y_mm: measure('y_mm').exactOptional(),
    z_mm: measure('z_mm').exactOptional(),
    tilt_deg: measure('tilt_deg').exactOptional(),
    yaw_deg: measure('yaw_deg').exactOptional(),
    about,
  })
  .describe(
    "The tool point within a ball, or an ellipsoid of these semi-axes; tilted to any side by at most tilt_deg; turned about the platform's own axis by at most yaw_deg either way.",
  );

/** What a requirement may ask for besides, by the names of the floors. */
const limits = {
  ...recordOf(FLOOR_NAMES, (name) => measure(name).exactOptional()),
  jointPull_N: measure('jointPull_N').exactOptional(),
};

/** since version 1 */
const requirement = z
  .strictObject({
    name: z.string().max(200),
    must: z.boolean().describe('Whether it must be met; a wish otherwise. True if left out.').exactOptional(),
    box: box.exactOptional(),
    round: round.exactOptional(),
    poses: z
      .array(pose)
      .min(1)
      .max(MOST_POSES)
      .describe('Poses that must be reached, each for itself.')
      .exactOptional(),
    payload: payload.describe('Carried meanwhile; that of the design if left out.').exactOptional(),
    load: load.describe('Held meanwhile; that of the design if left out.').exactOptional(),
    sidePush: z
      .strictObject({ size_N: measure('size_N').exactOptional(), size_N_mm: measure('size_N_mm').exactOptional() })
      .describe('A force and a torque of this size at the tool point in any direction, besides the load.')
      .exactOptional(),
    ...limits,
  })
  .describe('Something the platform must be able to do: one of box, round and poses, with what it must keep there.');

/** since version 1; files from before it had none */
export const task = z
  .strictObject({ requirements: z.array(requirement).max(MOST_REQUIREMENTS) })
  .describe('What the platform must do.');

/** since version 1; files from before it had none */
export const parts = z
  .strictObject({
    locked: z
      .array(z.string().max(100))
      .max(MOST_PATHS)
      .describe('Paths of numbers of this design that nothing but a person may change, such as "legs.min_mm".')
      .exactOptional(),
    free: z
      .record(z.string().max(100), z.strictObject({ from: measure('from'), to: measure('to') }))
      .describe('Ranges of numbers of this design that may be chosen, by path, each in the unit of its number.')
      .exactOptional(),
    deadLength_mm: measure('deadLength_mm').exactOptional(),
    baseJointDiameter_mm: measure('baseJointDiameter_mm').exactOptional(),
    platformJointDiameter_mm: measure('platformJointDiameter_mm').exactOptional(),
  })
  .describe('What is said about the parts at hand, whose numbers stand in their own places.');
