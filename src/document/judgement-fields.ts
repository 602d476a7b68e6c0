import { measure, six, vector } from './field-kinds.ts';
import { z } from './zod.ts';

/** Most corners of a plate's outline, and most keep-out volumes: more than anyone types, few enough to check at every pose. */
export const MOST_CORNERS = 40;
export const MOST_KEEP_OUTS = 12;

/**
 * Most corners of a hull that stands for an imported mesh: the file stays at some kilobytes, and the hull of a ball lies
 * at most some six percent of its radius outside.
 */
export const MOST_HULL_CORNERS = 120;

/** Fewest corners that enclose an area, and a volume. */
const FEWEST_CORNERS = 3;
const FEWEST_HULL_CORNERS = 4;

/** Kinds of joints, in the order in which lists name them. */
export const JOINT_KINDS = ['ball', 'rodEnd', 'universal'] as const;

/** Named directions of a bolt or first axis, in the order in which lists name them. */
export const CROSS_AXES = ['acrossLeg', 'tangential', 'radial'] as const;

/** since version 1; files from before it had none */
const crossAxis = z.union([
  z.enum(CROSS_AXES),
  z.strictObject({ toward_deg: six(measure('toward_deg')), rise_deg: measure('rise_deg') }),
]);

/** What a joint of another kind than a ball says besides its tilt and mount. */
export const jointExtras = {
  bolt: crossAxis
    .describe(
      "Rod end: direction of its bolt. In the plate's plane and square to the leg at home (if left out), along the joint circle, toward its centre, or six azimuths with one rise.",
    )
    .exactOptional(),
  firstAxis: crossAxis
    .describe(
      'Universal joint: direction of the axis fixed to the plate, taken square to the mount axis; acrossLeg if left out.',
    )
    .exactOptional(),
  secondTilt_deg: measure('secondTilt_deg').exactOptional(),
};

/** since version 1; what is left out is free of error */
const legErrors = {
  resolution_mm: measure('resolution_mm').exactOptional(),
  backlash_mm: measure('backlash_mm').exactOptional(),
  zero_mm: measure('zero_mm').exactOptional(),
  basePlay_mm: measure('basePlay_mm').exactOptional(),
  platformPlay_mm: measure('platformPlay_mm').exactOptional(),
  baseHole_mm: measure('baseHole_mm').exactOptional(),
  platformHole_mm: measure('platformHole_mm').exactOptional(),
  baseSeat_mm: measure('baseSeat_mm').exactOptional(),
  platformSeat_mm: measure('platformSeat_mm').exactOptional(),
};

const OWN_SAYS = 'What single legs have instead, leg 1 first; an empty object for a leg that is like the others.';

/** since version 1 */
export const accuracy = z
  .strictObject({ ...legErrors, ownByLeg: six(z.strictObject(legErrors)).describe(OWN_SAYS).exactOptional() })
  .describe(
    'How far leg lengths and joint centres can be off, for all six legs unless one has its own; what is left out counts as 0.',
  );

/** since version 1 */
export const stiffness = z
  .strictObject({
    leg_N_mm: measure('leg_N_mm'),
    baseJoint_N_mm: measure('baseJoint_N_mm').exactOptional(),
    platformJoint_N_mm: measure('platformJoint_N_mm').exactOptional(),
    ownByLeg: six(
      z.strictObject({
        leg_N_mm: measure('leg_N_mm').exactOptional(),
        baseJoint_N_mm: measure('baseJoint_N_mm').exactOptional(),
        platformJoint_N_mm: measure('platformJoint_N_mm').exactOptional(),
      }),
    )
      .describe(OWN_SAYS)
      .exactOptional(),
  })
  .describe(
    'Axial stiffness of every leg unless one has its own, its joints in series; a joint left out does not give.',
  );

const box = z.strictObject({
  box: z.strictObject({
    middle_mm: vector('middle_mm'),
    size_mm: vector('size_mm'),
    boxTurn_deg: measure('boxTurn_deg').exactOptional(),
  }),
});

const cylinder = z.strictObject({
  cylinder: z.strictObject({
    from_mm: vector('from_mm'),
    to_mm: vector('to_mm'),
    diameter_mm: measure('diameter_mm'),
  }),
});

const hull = z.strictObject({
  hull: z
    .strictObject({
      corners_mm: z.array(vector('corners_mm')).min(FEWEST_HULL_CORNERS).max(MOST_HULL_CORNERS),
      source: z.string().max(200).describe('Name of the file that the corners were taken from.').exactOptional(),
    })
    .describe('The convex hull of points: what bounds an imported mesh.'),
});

/** since version 1 */
const shape = z
  .union([box, cylinder])
  .describe('A box, or a cylinder between the middles of its two ends, in the frame of the plate it is fixed to.');

/** since version 1; files from before six numbers had three */
const inertia = z
  .union([
    vector('inertia_kg_mm2'),
    z.tuple([
      ...vector('inertia_kg_mm2').def.items,
      measure('products_kg_mm2'),
      measure('products_kg_mm2'),
      measure('products_kg_mm2'),
    ]),
  ])
  .describe('Inertia matrix: xx, yy, zz, or all six of xx, yy, zz, xy, xz, yz.');

/** since version 1 */
export const payload = z
  .strictObject({
    mass_kg: measure('mass_kg'),
    centre_mm: vector('centre_mm').exactOptional(),
    inertia_kg_mm2: inertia.exactOptional(),
    shape: z
      .union([box, cylinder, hull])
      .describe("A box, a cylinder between the middles of its two ends, or a hull, in the platform's frame.")
      .exactOptional(),
  })
  .describe(
    'What the platform carries, itself included. Centre of mass: that of the shape as a uniform body, or the tool point, if left out. Inertia: that of the shape as a uniform body about its own centre of mass, or none; nothing is added for the plate, and legs weigh nothing.',
  );

/** since version 1 */
const counterweight = z
  .strictObject({ anchor_mm: vector('anchor_mm'), attach_mm: vector('attach_mm'), pull_N: measure('pull_N') })
  .describe('A weight over a pulley, or a spring of constant force: pulls the attachment toward the anchor.');

/** since version 1 */
const spring = z
  .strictObject({
    anchor_mm: vector('anchor_mm'),
    attach_mm: vector('attach_mm'),
    rate_N_mm: measure('rate_N_mm'),
    freeLength_mm: measure('freeLength_mm'),
  })
  .describe(
    'A spring between the anchor and the attachment: pulls when longer than its free length, pushes when shorter.',
  );

/** since version 1 */
export const load = z
  .strictObject({
    force_N: vector('force_N').exactOptional(),
    torque_N_mm: vector('torque_N_mm').exactOptional(),
    gravityDirection: vector('gravityDirection').exactOptional(),
    gravity_m_s2: measure('gravity_m_s2').exactOptional(),
    counterweight: counterweight.exactOptional(),
    spring: spring.exactOptional(),
  })
  .describe(
    'Outside force and torque at the tool point, where gravity points, and what balances the weight; base frame.',
  );

/** since version 1 */
const plateBody = z
  .strictObject({
    thickness_mm: measure('thickness_mm').exactOptional(),
    outlineDiameter_mm: measure('outlineDiameter_mm').exactOptional(),
    outline_mm: z
      .array(z.tuple([measure('outline_mm'), measure('outline_mm')]))
      .min(FEWEST_CORNERS)
      .max(MOST_CORNERS)
      .describe("Corners [x, y] of a convex outline, counter-clockwise, in the plate's frame; instead of a diameter.")
      .exactOptional(),
    openingDiameter_mm: measure('openingDiameter_mm').exactOptional(),
    jointZone_mm: measure('jointZone_mm').exactOptional(),
  })
  .describe('Body of a plate for clearances; what is left out follows from joints and legs.');

/** since version 1 */
export const plates = z
  .strictObject({ base: plateBody.exactOptional(), platform: plateBody.exactOptional() })
  .describe('Bodies of the two plates.');

/** since version 1 */
export const keepOuts = z
  .array(z.strictObject({ name: z.string().max(80), fixedTo: z.enum(['base', 'platform']), shape }))
  .max(MOST_KEEP_OUTS)
  .describe('Volumes that legs and the other plate must stay out of.');
