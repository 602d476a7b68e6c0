import { BufferGeometry } from 'three';
import type { ReachPoints } from '../../src/jobs/reach-picture.ts';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { sameStiffness } from '../../src/kinematics/stiffness.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { fieldOver } from '../../src/reach/field/field.ts';
import { valueRange } from '../../src/reach/field/field-range.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { fieldScale } from '../../src/scene/colour/field-scale.ts';
import { paintPart } from '../../src/scene/drawing/reach-drawing.ts';
import { missedFloors } from '../../src/scene/model/reach-paint.ts';
import { DEG, referenceLayout } from '../kinematics/designs.ts';

/**
 * Field of six quantities, and of all ten, over 30,000 positions of the reference layout; processor time, so that other work
 * on the machine counts less. Run: npx tsx tests/bench/field.bench.ts
 */
const POINTS = 30_000;
const ROUNDS = 15;
const SEED = 7;

const mechanism = referenceLayout({
  legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
  joints: {
    base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
    platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  },
});
const settings: FieldSettings = {
  errors: sameErrors({ ...NO_ERRORS, resolution: 0.01, basePlay: 0.02, platformPlay: 0.02, baseHole: 0.05 }),
  stiffness: sameStiffness({ leg: 800, baseJoint: 4000, platformJoint: 4000 }),
  load: payloadOnly({ mass: 3, centre: [5, 0, 30] }),
  clearance: defaultClearance(mechanism),
};
const random = seededRandom(SEED);
const positions = Float64Array.from({ length: 3 * POINTS }, (_, n) =>
  n % 3 === 2 ? uniform(random, 120, 185) : uniform(random, -50, 50),
);
const { R_BP } = poseFromAngles({ position: [0, 0, 0], roll: 0.1, pitch: -0.05, yaw: 0.2 });

const six = ['condition', 'toolError', 'stiffness', 'legForce', 'clearance', 'longMargin'] as const;
const ten = [...six, 'leastPush', 'shortMargin', 'baseMargin', 'platformMargin'] as const;

for (const [name, wanted] of [
  ['six quantities', six],
  ['ten quantities', ten],
  ...six.map((quantity) => [quantity, [quantity]] as const),
] as const) {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS + 3; round++) {
    const start = process.cpuUsage();
    const field = fieldOver(mechanism, R_BP, positions, settings, wanted);
    const { user, system } = process.cpuUsage(start);
    const time = (user + system) / 1000;
    if (!field.ok) throw new Error(field.fault.message);
    if (round >= 3) times.push(time);
  }
  times.sort((a, b) => a - b);
  const median = times[Math.floor(ROUNDS / 2)];
  console.log(
    `${name}: min ${times[0].toFixed(1)} ms, median ${median.toFixed(1)} ms, max ${times[ROUNDS - 1].toFixed(1)} ms for ${POINTS} points (seed ${SEED})`,
  );
}

/**
 * Recolouring, as the main thread does it: the values of another quantity become the colours and marks of 30,000 drawn points,
 * a floor is judged with them. The spread of the values comes with the field, from the worker.
 */
const all = fieldOver(mechanism, R_BP, positions, settings, ten);
if (!all.ok) throw new Error(all.fault.message);
const { quantities } = all.value;
const points: ReachPoints = {
  positions,
  magnifications: new Float64Array(POINTS).fill(2),
  limits: new Uint8Array(POINTS),
};
const geometry = new BufferGeometry();
const floors = [{ quantity: 'stiffness', value: 500 }] as const;
const ranges = ten.map((quantity) => valueRange(quantities[quantity] ?? new Float32Array(0)));
const recolouring: number[] = [];
for (let round = 0; round < 12 * ten.length; round++) {
  const quantity = ten[round % ten.length];
  const values = quantities[quantity];
  const range = ranges[round % ten.length];
  if (!values || !range) throw new Error(`no values of ${quantity}`);
  const start = process.cpuUsage();
  const missed = missedFloors(quantities, floors, POINTS);
  paintPart(geometry, points, fieldScale(quantity, range), { values, missed });
  const { user, system } = process.cpuUsage(start);
  if (round >= 2 * ten.length) recolouring.push((user + system) / 1000);
}
recolouring.sort((a, b) => a - b);
const middle = recolouring[Math.floor(recolouring.length / 2)];
console.log(
  `recolouring for another quantity: min ${recolouring[0].toFixed(2)} ms, median ${middle.toFixed(2)} ms, max ${recolouring[recolouring.length - 1].toFixed(2)} ms for ${POINTS} points`,
);
