import { poseBodies, SmallestClearance } from '../../src/kinematics/clearance.ts';
import { clearanceModel } from '../../src/kinematics/clearance-pairs.ts';
import { determinantOf } from '../../src/kinematics/independence.ts';
import { jacobian } from '../../src/kinematics/jacobian.ts';
import { jointStates } from '../../src/kinematics/joint-limits.ts';
import { type ClearanceSpec, defaultClearance } from '../../src/kinematics/keep-out.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import type { Mechanism, Mount } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';
import { type PoseBox, poseFromNumbers } from '../../src/reach/pose-box.ts';
import type { ProofReport } from '../../src/reach/prove/prove.ts';
import { DEG, mechanismOf, points, ring, withKinds } from '../kinematics/designs.ts';

/** A layout and a box of poses to decide about. */
export interface ProofCase {
  readonly name: string;
  readonly mechanism: Mechanism;
  readonly clearance: ClearanceSpec;
  readonly box: PoseBox;
}

/** Ten layouts of all kinds, with boxes from easy to hopeless, from one seed. */
export function proofCases(seed: number): readonly ProofCase[] {
  const random = seededRandom(seed);
  return Array.from({ length: 10 }, (_, n) => proofCase(random, n));
}

function proofCase(random: Random, n: number): ProofCase {
  const height = uniform(random, 110, 190);
  const leaning: Mount = {
    kind: 'leaning',
    lean: uniform(random, 5, 25) * DEG,
    toward: Float64Array.from({ length: 6 }, () => uniform(random, -3, 3)),
  };
  const mount: Mount = n % 3 === 0 ? leaning : { kind: 'aimed' };
  const base = ring(uniform(random, 80, 130), uniform(random, 10, 50));
  const shaken = (radius: number, gap: number) => {
    const even = mechanismOf(ring(radius, gap), ring(radius, gap), 1);
    return points(even.centres.platform.map((entry) => entry + uniform(random, -8, 8)));
  };
  const platform = n % 2 === 0 ? ring(uniform(random, 50, 90), uniform(random, 10, 45)) : shaken(65, 25);
  const stroke = uniform(random, 25, 60);
  const outline = mechanismOf(base, platform, height);
  const middle = legStates(outline, outline.home).reduce((sum, { length }) => sum + length / 6, 0);
  const mechanism = mechanismOf(base, platform, height, {
    tool: n % 2 === 0 ? [0, 0, 0] : [uniform(random, -10, 10), 5, uniform(random, 0, 40)],
    legs: { min: middle - stroke, max: middle + stroke, barrelDiameter: 18, rodDiameter: 8 },
    joints: {
      base: { tiltLimit: uniform(random, 18, 35) * DEG, mount },
      platform: { tiltLimit: uniform(random, 18, 35) * DEG, mount },
    },
    home: { ...outline.home, p_BoTo_B: [0, 0, height + (n % 2 === 0 ? 0 : 20)] },
  });
  const kinds = [
    { kind: 'ball' },
    { kind: 'rodEnd', bolt: { kind: 'acrossLeg' } },
    { kind: 'universal', first: { kind: 'acrossLeg' }, secondLimit: 25 * DEG },
  ] as const;
  const size = [0.3, 0.6, 1, 1.5, 2.5][n % 5];
  const half = { position: [8 * size, 8 * size, 6 * size], roll: 4, pitch: 4, yaw: 5 } as const;
  return {
    name: `layout ${n + 1}, box ${size}`,
    mechanism: withKinds(mechanism, kinds[n % 3], kinds[((n + n / 5) % 3) | 0]),
    clearance: {
      ...defaultClearance(mechanism),
      payload: { kind: 'cylinder', from: [0, 0, 15], to: [0, 0, 70], radius: 40 },
    },
    box: {
      centre: { position: mechanism.home.p_BoTo_B, roll: 0.03, pitch: -0.02, yaw: uniform(random, -0.3, 0.3) },
      half: { ...half, roll: half.roll * size * DEG, pitch: half.pitch * size * DEG, yaw: half.yaw * size * DEG },
    },
  };
}

/** Judges single poses exactly, by the program's single-pose functions and not by its bounds. */
export class PoseJudge {
  private readonly own: ProofCase;
  private readonly bodies: SmallestClearance;
  private readonly sign: number;

  constructor(own: ProofCase) {
    this.own = own;
    this.bodies = new SmallestClearance(clearanceModel(own.mechanism, own.clearance));
    const { position, roll, pitch, yaw } = own.box.centre;
    this.sign = Math.sign(this.determinant(poseFromNumbers([...position, roll, pitch, yaw])));
  }

  /** Every length limit by the leg states, every joint by its margin. */
  reachable(pose: Pose): boolean {
    const { mechanism } = this.own;
    const lengths = legStates(mechanism, pose).every(
      ({ violations }) => !violations.includes('legTooShort') && !violations.includes('legTooLong'),
    );
    return (
      lengths &&
      jointStates(mechanism, pose).every(
        ({ baseMargin, platformMargin }) => baseMargin >= -1e-12 && platformMargin >= -1e-12,
      )
    );
  }

  determinant(pose: Pose): number {
    return determinantOf(jacobian(this.own.mechanism, pose));
  }

  regular(pose: Pose): boolean {
    return Math.sign(this.determinant(pose)) === this.sign;
  }

  clearance(pose: Pose): number {
    poseBodies(this.bodies.model, pose);
    return this.bodies.now();
  }
}

/** Number of random poses of the box that contradict a proof, by question. */
export function contradictions(own: ProofCase, report: ProofReport, count: number, random: Random) {
  const judge = new PoseJudge(own);
  const { centre, half } = own.box;
  const [c, h] = [centre, half].map(({ position, roll, pitch, yaw }) => [...position, roll, pitch, yaw]);
  const numbers = new Float64Array(6);
  const found = { reachable: 0, regular: 0, clear: 0 };
  for (let n = 0; n < count; n++) {
    // every fourth pose on the box's boundary, where trouble starts
    for (let axis = 0; axis < 6; axis++) numbers[axis] = c[axis] + h[axis] * uniform(random, -1, 1);
    if (n % 4 === 0) {
      const axis = Math.floor(uniform(random, 0, 6));
      numbers[axis] = c[axis] + (random() < 0.5 ? -1 : 1) * h[axis];
    }
    const pose = poseFromNumbers(numbers);
    if (report.reachable.answer === 'proven' && !judge.reachable(pose)) found.reachable++;
    if (report.regular.answer === 'proven' && !judge.regular(pose)) found.regular++;
    if (report.clear?.answer === 'proven' && judge.clearance(pose) < 0) found.clear++;
  }
  return found;
}
