import fc from 'fast-check';
import type { DesignDocument } from '../../src/document/design.ts';
import { CROSS_AXES, MOST_CORNERS, MOST_HULL_CORNERS, MOST_KEEP_OUTS } from '../../src/document/judgement-fields.ts';
import { type NumberName, RANGES } from '../../src/document/ranges.ts';
import { validateDesign } from '../../src/document/read-design.ts';
import { inRange } from '../../src/terms/number-range.ts';

/** Any number that a field may hold, with all its digits, and often a round one. */
function measure(name: NumberName): fc.Arbitrary<number> {
  const range: { min: number; max: number; aboveMin?: true; belowMax?: true } = RANGES[name];
  const any = fc
    .double({
      min: range.min,
      max: range.max,
      minExcluded: range.aboveMin ?? false,
      maxExcluded: range.belowMax ?? false,
      noNaN: true,
    })
    .filter((value) => inRange(value, RANGES[name]));
  const round = fc.integer({ min: Math.ceil(range.min) + 1, max: Math.min(1000, Math.floor(range.max) - 1) });
  return fc.oneof(any, round);
}

const vector = (name: NumberName) => fc.tuple(measure(name), measure(name), measure(name));

function six<Value>(item: fc.Arbitrary<Value>) {
  return fc.tuple(item, item, item, item, item, item);
}

/** Texts with anything in them: other scripts, control characters, halves of surrogate pairs. */
const text = (maxLength: number) =>
  fc.oneof(
    fc.string({ unit: 'binary', maxLength }),
    fc.string({ maxLength }),
    fc.constantFrom('', '\ud800', '"\\\u2028', '\u0000'),
  );

const whole = (min: number, max: number) => fc.integer({ min, max });

const plate = fc.oneof(
  fc.record({
    ring: fc.record(
      {
        radius_mm: measure('radius_mm'),
        gap_deg: measure('gap_deg'),
        turn_deg: measure('turn_deg'),
        jointHeight_mm: measure('jointHeight_mm'),
        holes: fc.record({ count: whole(3, 3600), start_deg: measure('start_deg') }),
      },
      { requiredKeys: ['radius_mm', 'gap_deg', 'turn_deg', 'jointHeight_mm'] },
    ),
  }),
  fc.record({ points_mm: six(vector('points_mm')) }),
);

const optional = <Fields extends Record<string, fc.Arbitrary<unknown>>>(fields: Fields) =>
  fc.record(fields, { requiredKeys: [] });

const crossAxis = fc.oneof(
  fc.constantFrom(...CROSS_AXES),
  fc.record({ toward_deg: six(measure('toward_deg')), rise_deg: measure('rise_deg') }),
);

const jointBase = {
  tilt_deg: measure('tilt_deg'),
  mount: fc.oneof(
    fc.constantFrom('square', 'aimed'),
    fc.record({ lean_deg: measure('lean_deg'), toward_deg: six(measure('toward_deg')) }),
  ),
};

/** A joint of any kind, with what that kind may say and nothing else. */
const joint = fc.oneof(
  fc.record({ kind: fc.constant('ball'), ...jointBase }),
  fc.record(
    { kind: fc.constant('rodEnd'), ...jointBase, tilt_deg: measure('secondTilt_deg'), bolt: crossAxis },
    { requiredKeys: ['kind', 'tilt_deg', 'mount'] },
  ),
  fc.record(
    { kind: fc.constant('universal'), ...jointBase, firstAxis: crossAxis, secondTilt_deg: measure('secondTilt_deg') },
    { requiredKeys: ['kind', 'tilt_deg', 'mount'] },
  ),
);

const legErrors = {
  resolution_mm: measure('resolution_mm'),
  backlash_mm: measure('backlash_mm'),
  zero_mm: measure('zero_mm'),
  basePlay_mm: measure('basePlay_mm'),
  platformPlay_mm: measure('platformPlay_mm'),
  baseHole_mm: measure('baseHole_mm'),
  platformHole_mm: measure('platformHole_mm'),
  baseSeat_mm: measure('baseSeat_mm'),
  platformSeat_mm: measure('platformSeat_mm'),
};

const legStiffness = {
  leg_N_mm: measure('leg_N_mm'),
  baseJoint_N_mm: measure('baseJoint_N_mm'),
  platformJoint_N_mm: measure('platformJoint_N_mm'),
};

const box = fc.record({
  box: fc.record(
    { middle_mm: vector('middle_mm'), size_mm: vector('size_mm'), boxTurn_deg: measure('boxTurn_deg') },
    { requiredKeys: ['middle_mm', 'size_mm'] },
  ),
});

const cylinder = fc.record({
  cylinder: fc.record({
    from_mm: vector('from_mm'),
    to_mm: vector('to_mm'),
    diameter_mm: measure('diameter_mm'),
  }),
});

const hull = fc.record({
  hull: fc.record(
    {
      corners_mm: fc.array(vector('corners_mm'), { minLength: 4, maxLength: MOST_HULL_CORNERS }),
      source: text(200),
    },
    { requiredKeys: ['corners_mm'] },
  ),
});

const ends = { anchor_mm: vector('anchor_mm'), attach_mm: vector('attach_mm') };

/** A convex outline: corners of a circle in order. */
const outline = fc
  .record({ count: whole(3, MOST_CORNERS), radius: whole(1, 1000), turn: measure('rise_deg') })
  .map(({ count, radius, turn }) =>
    Array.from({ length: count }, (_, n): [number, number] => {
      const angle = (2 * Math.PI * n) / count + turn;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
  );

const plateBody = fc.oneof(
  optional({
    thickness_mm: measure('thickness_mm'),
    outlineDiameter_mm: whole(500, 1000),
    openingDiameter_mm: whole(0, 499),
    jointZone_mm: measure('jointZone_mm'),
  }),
  optional({ thickness_mm: measure('thickness_mm'), outline_mm: outline, jointZone_mm: measure('jointZone_mm') }),
);

/** Three moments, or a whole matrix whose products are too small to leave it without a body. */
const inertia = fc.oneof(
  vector('inertia_kg_mm2'),
  fc
    .tuple(fc.double({ min: 0, max: 1e18, noNaN: true }), fc.double({ min: -0.5, max: 0.5, noNaN: true }))
    .map(([most, share]): [number, number, number, number, number, number] => [
      most,
      most,
      most,
      share * most + 0,
      0,
      -share * most + 0,
    ]),
);

/** What the judgements start from; every key may be left out. */
const judged = {
  accuracy: optional({ ...legErrors, ownByLeg: six(optional(legErrors)) }),
  stiffness: fc.record({ ...legStiffness, ownByLeg: six(optional(legStiffness)) }, { requiredKeys: ['leg_N_mm'] }),
  payload: fc.record(
    {
      mass_kg: measure('mass_kg'),
      centre_mm: vector('centre_mm'),
      inertia_kg_mm2: inertia,
      shape: fc.oneof(box, cylinder, hull),
    },
    { requiredKeys: ['mass_kg'] },
  ),
  load: optional({
    force_N: vector('force_N'),
    torque_N_mm: vector('torque_N_mm'),
    gravityDirection: vector('gravityDirection'),
    gravity_m_s2: measure('gravity_m_s2'),
    counterweight: fc.record({ ...ends, pull_N: measure('pull_N') }),
    spring: fc.record({ ...ends, rate_N_mm: measure('rate_N_mm'), freeLength_mm: measure('freeLength_mm') }),
  }),
  plates: optional({ base: plateBody, platform: plateBody }),
  keepOuts: fc.array(
    fc.record({ name: text(80), fixedTo: fc.constantFrom('base', 'platform'), shape: fc.oneof(box, cylinder) }),
    { maxLength: MOST_KEEP_OUTS },
  ),
};

const half = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 180, noNaN: true }));
const round = fc.oneof(fc.constant(1), fc.double({ min: 0, max: 90, minExcluded: true, noNaN: true }));

const pose = fc.record({
  position_mm: vector('position_mm'),
  roll_deg: measure('roll_deg'),
  pitch_deg: measure('pitch_deg'),
  yaw_deg: measure('yaw_deg'),
});

const above0 = fc.double({ min: 0, max: 1000, minExcluded: true, noNaN: true });

const alsoAsked = {
  must: fc.boolean(),
  payload: judged.payload,
  load: judged.load,
  sidePush: optional({ size_N: measure('size_N'), size_N_mm: measure('size_N_mm') }),
  condition: measure('condition'),
  firmness: measure('firmness'),
  toolError_mm: above0,
  stiffness_N_mm: measure('stiffness_N_mm'),
  legForce_N: above0,
  leastPush_N: measure('leastPush_N'),
  clearance_mm: measure('clearance_mm'),
  shortMargin_mm: measure('shortMargin_mm'),
  longMargin_mm: measure('longMargin_mm'),
  baseMargin_deg: measure('baseMargin_deg'),
  platformMargin_deg: measure('platformMargin_deg'),
  jointPull_N: measure('jointPull_N'),
};

const ranges = {
  x_mm: measure('x_mm'),
  y_mm: measure('y_mm'),
  z_mm: measure('z_mm'),
  roll_deg: half,
  pitch_deg: half,
  yaw_deg: half,
};

type Axis = keyof typeof ranges;

/** A box whose `free` axes are two of the six. */
function boxWithout(first: Axis, second: Axis) {
  const { [first]: one, [second]: other, ...asked } = ranges;
  const free = optional({ [first]: one, [second]: other });
  return optional({ ...asked, about: pose, each: fc.constantFrom('together', 'alone'), free });
}

const region = (name: 'box' | 'round' | 'poses', value: fc.Arbitrary<unknown>) =>
  fc
    .tuple(fc.record({ name: text(200), ...alsoAsked }, { requiredKeys: ['name'] }), value)
    .map(([rest, poses]) => ({ ...rest, [name]: poses }));

/** Requirements of every kind, with what goes together. */
const requirement = fc.oneof(
  region('box', optional({ ...ranges, about: pose })),
  region(
    'box',
    fc.oneof(boxWithout('x_mm', 'roll_deg'), boxWithout('y_mm', 'pitch_deg'), boxWithout('z_mm', 'yaw_deg')),
  ),
  region('round', optional({ radius_mm: measure('radius_mm'), tilt_deg: round, yaw_deg: half, about: pose })),
  region('round', optional({ x_mm: measure('x_mm'), y_mm: measure('y_mm'), z_mm: measure('z_mm') })),
  region('poses', fc.array(pose, { minLength: 1, maxLength: 5 })),
);

const asked = {
  task: fc.record({ requirements: fc.array(requirement, { maxLength: 2 }) }),
  parts: optional({
    locked: fc.uniqueArray(fc.constantFrom('legs.min_mm', 'joints.base.tilt_deg', 'tool.point_mm[1]')),
    free: fc.constantFrom({}, { 'platform.ring.radius_mm': { from: 40, to: 80 } }),
    deadLength_mm: measure('deadLength_mm'),
    baseJointDiameter_mm: measure('baseJointDiameter_mm'),
    platformJointDiameter_mm: measure('platformJointDiameter_mm'),
  }),
};

const content = {
  name: text(200),
  note: text(400),
  base: plate,
  platform: plate,
  legs: fc
    .record(
      {
        min_mm: measure('min_mm'),
        max_mm: measure('max_mm'),
        barrelDiameter_mm: measure('barrelDiameter_mm'),
        rodDiameter_mm: measure('rodDiameter_mm'),
        barrelLength_mm: measure('barrelLength_mm'),
        screwLead_mm: measure('screwLead_mm'),
        rodKeyed: fc.boolean(),
        barrelMass_kg: measure('barrelMass_kg'),
        barrelCentre_mm: measure('barrelCentre_mm'),
        barrelInertia_kg_mm2: measure('barrelInertia_kg_mm2'),
        rodMass_kg: measure('rodMass_kg'),
        rodCentre_mm: measure('rodCentre_mm'),
        rodInertia_kg_mm2: measure('rodInertia_kg_mm2'),
        screwEfficiency: fc.double({ min: 1e-6, max: 1, noNaN: true }),
        friction_N: measure('friction_N'),
        rotorInertia_kg_mm2: measure('rotorInertia_kg_mm2'),
        speed_mm_s: measure('speed_mm_s'),
        acceleration_mm_s2: measure('acceleration_mm_s2'),
        push_N: measure('push_N'),
        pull_N: measure('pull_N'),
        power_W: measure('power_W'),
      },
      { requiredKeys: ['min_mm', 'max_mm', 'barrelDiameter_mm', 'rodDiameter_mm'] },
    )
    .map(({ min_mm: a, max_mm: b, ...rest }) => ({ min_mm: Math.min(a, b), max_mm: Math.max(a, b), ...rest })),
  joints: fc.record({ base: joint, platform: joint }),
  tool: fc.record({ point_mm: vector('point_mm') }),
  home: fc.record({
    position_mm: vector('position_mm'),
    roll_deg: measure('roll_deg'),
    pitch_deg: measure('pitch_deg'),
    yaw_deg: measure('yaw_deg'),
  }),
  characteristicLength_mm: measure('characteristicLength_mm'),
  ...judged,
  ...asked,
};

const demanded = {
  floors: fc.record(
    {
      condition: measure('condition'),
      firmness: measure('firmness'),
      toolError_mm: measure('toolError_mm'),
      stiffness_N_mm: measure('stiffness_N_mm'),
      legForce_N: measure('legForce_N'),
      leastPush_N: measure('leastPush_N'),
      clearance_mm: measure('clearance_mm'),
      shortMargin_mm: measure('shortMargin_mm'),
      longMargin_mm: measure('longMargin_mm'),
      baseMargin_deg: measure('baseMargin_deg'),
      platformMargin_deg: measure('platformMargin_deg'),
    },
    { requiredKeys: [] },
  ),
};

const required: (keyof typeof content)[] = ['name', 'note', 'base', 'platform', 'legs', 'joints', 'tool', 'home'];

const snapshot = fc.record({
  name: text(200),
  takenAt: fc
    .date({ min: new Date('1970-01-01'), max: new Date('2999-12-31'), noInvalidDate: true })
    .map((date) => date.toISOString()),
  design: fc.record({ ...content, ...demanded }, { requiredKeys: required }),
});

const envelope = { format: fc.constant('legroom-design'), version: fc.constant(1) };

/** Any design that a file can hold, snapshots included. */
export const anyDesign: fc.Arbitrary<DesignDocument> = fc
  .record(
    { ...envelope, ...content, ...demanded, snapshots: fc.array(snapshot, { maxLength: 3 }) },
    { requiredKeys: ['format', 'version', ...required] },
  )
  .map((design) => validateDesign(design))
  .filter((design) => design.ok)
  .map((design) => design.value);
