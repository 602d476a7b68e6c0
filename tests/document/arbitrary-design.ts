import fc from 'fast-check';
import type { DesignDocument } from '../../src/document/design.ts';
import { type NumberName, RANGES } from '../../src/document/ranges.ts';
import { validateDesign } from '../../src/document/read-design.ts';

/** Any number that a field may hold, with all its digits, and often a round one. */
function measure(name: NumberName): fc.Arbitrary<number> {
  const range: { min: number; max: number; aboveMin?: true; belowMax?: true } = RANGES[name];
  const any = fc.double({
    min: range.min,
    max: range.max,
    minExcluded: range.aboveMin ?? false,
    maxExcluded: range.belowMax ?? false,
    noNaN: true,
  });
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

const joint = fc.record({
  kind: fc.constant('ball'),
  tilt_deg: measure('tilt_deg'),
  mount: fc.oneof(
    fc.constantFrom('square', 'aimed'),
    fc.record({ lean_deg: measure('lean_deg'), toward_deg: six(measure('toward_deg')) }),
  ),
});

const content = {
  name: text(200),
  note: text(400),
  base: plate,
  platform: plate,
  legs: fc
    .record({
      min_mm: measure('min_mm'),
      max_mm: measure('max_mm'),
      barrelDiameter_mm: measure('barrelDiameter_mm'),
      rodDiameter_mm: measure('rodDiameter_mm'),
    })
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
};

const optional = {
  floors: fc.record(
    {
      condition: measure('condition'),
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
  design: fc.record({ ...content, ...optional }, { requiredKeys: required }),
});

const envelope = { format: fc.constant('legroom-design'), version: fc.constant(1) };

/** Any design that a file can hold, snapshots included. */
export const anyDesign: fc.Arbitrary<DesignDocument> = fc
  .record(
    { ...envelope, ...content, ...optional, snapshots: fc.array(snapshot, { maxLength: 3 }) },
    { requiredKeys: ['format', 'version', ...required] },
  )
  .map((design) => validateDesign(design))
  .filter((design) => design.ok)
  .map((design) => design.value);
