import { measure, six, vector } from './field-kinds.ts';
import { floors } from './floor-fields.ts';
import { accuracy, JOINT_KINDS, jointExtras, keepOuts, load, payload, plates, stiffness } from './judgement-fields.ts';
import { legDrive } from './motion-fields.ts';
import { parts, task } from './task-fields.ts';
import { z } from './zod.ts';

/** First key of every design file. */
export const DESIGN_FORMAT = 'legroom-design';

/** The version this program writes, and the newest it reads. */
export const DESIGN_VERSION = 1;

/** since version 1 */
const holes = z
  .strictObject({ count: measure('count'), start_deg: measure('start_deg') })
  .describe('Equally spaced holes on the joint circle; every joint goes to the hole nearest to its angle.');

/** since version 1 */
const ring = z
  .strictObject({
    radius_mm: measure('radius_mm'),
    gap_deg: measure('gap_deg'),
    turn_deg: measure('turn_deg'),
    jointHeight_mm: measure('jointHeight_mm'),
    holes: holes.exactOptional(),
  })
  .describe(
    'Three joint pairs on a circle: base pairs at 0, 120, 240 deg, platform pairs at 60, 180, 300 deg, plus the turn.',
  );

/** since version 1 */
const plate = z.union([
  z.strictObject({ ring }),
  z.strictObject({
    points_mm: six(vector('points_mm')).describe("Six joint centres, joint 1 to 6 in order, in the plate's frame."),
  }),
]);

/** since version 1 */
const mount = z
  .union([
    z.enum(['square', 'aimed']),
    z.strictObject({ lean_deg: measure('lean_deg'), toward_deg: six(measure('toward_deg')) }),
  ])
  .describe('Mount axis: square to the plate, aimed along the leg at the home pose, or leaning toward six azimuths.');

/** since version 1 */
const joint = z.strictObject({
  kind: z
    .enum(JOINT_KINDS)
    .describe(
      'Ball in a socket: the tilt limit is a cone about the mount axis. Rod end: free round its bolt, the tilt limit holds across it. Universal: the tilt limit holds about the first axis.',
    ),
  tilt_deg: measure('tilt_deg'),
  mount,
  ...jointExtras,
});

/** since version 1 */
const pose = z
  .strictObject({
    position_mm: vector('position_mm'),
    roll_deg: measure('roll_deg'),
    pitch_deg: measure('pitch_deg'),
    yaw_deg: measure('yaw_deg'),
  })
  .describe('Tool point in the base frame, and R = Rz(yaw) Ry(pitch) Rx(roll).');

/** Everything that makes a design, without the envelope of its file and without its snapshots; since version 1. */
const content = {
  name: z.string().max(200).default('Untitled'),
  note: z.string().max(20_000).default(''),
  base: plate.describe(
    'The fixed plate. Frame: origin at the centre of the joint circle, Z up, +X to the middle of pair 1.',
  ),
  platform: plate.describe('The moving plate, in its own frame.'),
  legs: z
    .strictObject({
      min_mm: measure('min_mm'),
      max_mm: measure('max_mm'),
      barrelDiameter_mm: measure('barrelDiameter_mm'),
      rodDiameter_mm: measure('rodDiameter_mm'),
      barrelLength_mm: measure('barrelLength_mm').exactOptional(),
      screwLead_mm: measure('screwLead_mm').exactOptional(),
      rodKeyed: z
        .boolean()
        .describe('Whether the rod cannot turn in its barrel; not known if left out.')
        .exactOptional(),
      ...legDrive,
    })
    .describe('The six equal legs; lengths are joint centre to joint centre.'),
  joints: z.strictObject({ base: joint, platform: joint }),
  tool: z
    .strictObject({ point_mm: vector('point_mm') })
    .describe('The point the platform turns about, fixed in the platform.'),
  home: pose,
  characteristicLength_mm: measure('characteristicLength_mm').exactOptional(),
  accuracy: accuracy.exactOptional(),
  stiffness: stiffness.exactOptional(),
  payload: payload.exactOptional(),
  load: load.exactOptional(),
  plates: plates.exactOptional(),
  keepOuts: keepOuts.exactOptional(),
  floors: floors.exactOptional(),
  task: task.exactOptional(),
  parts: parts.exactOptional(),
};

/**
 * Most snapshots that a file keeps: more than anyone tells apart by name, and even with the longest notes in all of them the file
 * stays below the largest size that is read.
 */
export const MOST_SNAPSHOTS = 24;

/** since version 1; files from before it had none */
const snapshot = z.strictObject({
  name: z.string().max(200),
  takenAt: z.string().regex(z.regexes.datetime({})).describe('When it was taken: date and time in UTC, ISO 8601.'),
  design: z.strictObject(content),
});

/**
 * The design file, version 1: the one source of the type, the validator and the JSON Schema. Keys are written in the
 * order in which they stand here.
 */
export const designSchema = z
  .strictObject({
    format: z.literal(DESIGN_FORMAT),
    version: z.literal(DESIGN_VERSION),
    ...content,
    snapshots: z
      .array(snapshot)
      .max(MOST_SNAPSHOTS)
      .describe('States of the design kept under a name, oldest first.')
      .exactOptional(),
  })
  .describe('A six-legged platform: two plates, six legs, twelve joints, a tool point and a home pose.');

type Frozen<Value> = Value extends object ? { readonly [Key in keyof Value]: Frozen<Value[Key]> } : Value;

/**
 * A design as its file holds it: plain JSON in millimetres and degrees, validated, constant defaults filled in.
 * What may be left out and was left out stays absent.
 */
export type DesignDocument = Frozen<z.output<typeof designSchema>>;

/** A design without the envelope of its file and without snapshots. */
export type DesignContent = Omit<DesignDocument, 'format' | 'version' | 'snapshots'>;

/** A state of the design kept under a name. */
export type SnapshotDocument = NonNullable<DesignDocument['snapshots']>[number];

/** One plate: a ring or six free points. */
export type PlateDocument = DesignDocument['base'];

/** Three joint pairs on a circle. */
export type RingDocument = Extract<PlateDocument, { readonly ring: unknown }>['ring'];

/** Mounting holes on a ring. */
export type HolesDocument = NonNullable<RingDocument['holes']>;

/** Joint limit and mount of one plate's six joints. */
export type JointDocument = DesignDocument['joints']['base'];

/** Direction of a mount axis. */
export type MountDocument = JointDocument['mount'];

/** Direction of a rod end's bolt or of a universal joint's first axis. */
export type CrossAxisDocument = NonNullable<JointDocument['bolt']>;

/** A box or a cylinder. */
export type ShapeDocument = NonNullable<DesignDocument['keepOuts']>[number]['shape'];

/** A box, a cylinder or the hull of an imported mesh. */
export type PayloadShapeDocument = NonNullable<NonNullable<DesignDocument['payload']>['shape']>;

/** Leg lengths and diameters. */
export type LegsDocument = DesignDocument['legs'];

/** A pose in millimetres and degrees. */
export type PoseDocument = DesignDocument['home'];

/** One requirement of the task. */
export type RequirementDocument = NonNullable<DesignDocument['task']>['requirements'][number];

/** What is said about the parts at hand. */
export type PartsDocument = NonNullable<DesignDocument['parts']>;
