import { describe, expect, it } from 'vitest';
import { jacobian } from '../../src/kinematics/jacobian.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { rotateBack } from '../../src/math/rotation.ts';
import { type PoseBox, poseFromNumbers } from '../../src/reach/pose-box.ts';
import { decideBox, type ProofOptions, proveBox } from '../../src/reach/prove/prove.ts';
import { DirectionClaim, EitherClaim, EnclosedBox, PROOF_QUESTIONS } from '../../src/reach/prove/prove-claims.ts';
import { refutationWords } from '../../src/words/refutation.ts';
import { DEG, mechanismOf, referenceLayout, ring, withKinds } from '../kinematics/designs.ts';
import { contradictions, PoseJudge } from './proof-cases.ts';

const limited = {
  legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
  joints: {
    base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
    platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  },
} as const;

const boxOf = (travel: number, angle_deg: number, height = 150): PoseBox => ({
  centre: { position: [0, 0, height], roll: 0, pitch: 0, yaw: 0 },
  half: { position: [travel, travel, travel], roll: angle_deg * DEG, pitch: angle_deg * DEG, yaw: angle_deg * DEG },
});

describe('a joint that may keep either of two bounds', () => {
  it('is never said to keep more than it does at any pose of a box, and just that where the box is one pose (seed 133)', () => {
    const random = seededRandom(133);
    const mechanism = referenceLayout({ ...limited, tool: [4, -7, 30] });
    const box = new EnclosedBox(mechanism);
    const spread = new Float64Array(6);
    for (let round = 0; round < 200; round++) {
      const bounds = [0, 1].map(() => ({
        w: [uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)] as const,
        least: uniform(random, -0.5, 0.5),
      }));
      const leg = round % 6;
      const plate = round % 2 === 0 ? 'base' : 'platform';
      const [one, other] = bounds.map((bound) => new DirectionClaim(leg, plate, bound));
      const centre = Float64Array.of(5, -8, 160, 0.1, -0.2, 0.3);
      const size = round % 4 === 0 ? 0 : 10 ** uniform(random, -4, 0);
      const half = Float64Array.of(12, 9, 15, 0.1, 0.15, 0.2).map((entry) => entry * size);
      box.set(centre, half);
      const lowest = new EitherClaim(one, other).lowest(box, spread);
      for (let n = 0; n < 30; n++) {
        const pose = poseFromNumbers(centre.map((entry, k) => entry + half[k] * uniform(random, -1, 1)));
        const { u_B } = legStates(mechanism, pose)[leg];
        const seen = plate === 'base' ? u_B : rotateBack(pose.R_BP, u_B).map((entry) => -entry);
        const kept = bounds.map(({ w, least }) => w[0] * seen[0] + w[1] * seen[1] + w[2] * seen[2] - least);
        expect(lowest).toBeLessThanOrEqual(Math.max(...kept));
        if (size === 0) expect(lowest).toBeGreaterThan(Math.max(...kept) - 1e-11);
      }
    }
  });
});

describe('enclosure of the legs over a box', () => {
  const mechanism = referenceLayout({ ...limited, tool: [4, -7, 30] });

  it('holds lengths, directions and their changes at 2000 random poses (seed 131)', () => {
    const random = seededRandom(131);
    const box = new EnclosedBox(mechanism);
    for (let round = 0; round < 20; round++) {
      const centre = Float64Array.of(
        ...[uniform(random, -20, 20), uniform(random, -20, 20), uniform(random, 140, 200)],
        ...[uniform(random, -0.4, 0.4), uniform(random, -0.4, 0.4), uniform(random, -0.6, 0.6)],
      );
      const size = 10 ** uniform(random, -6, 0);
      const half = Float64Array.of(12, 9, 15, 0.1, 0.15, 0.2).map((entry) => entry * size);
      box.set(centre, half);
      const { enclosure } = box;
      const I = enclosure.registers;
      const holds = (register: number, value: number, slack: number) =>
        expect(Math.abs(value - I.mid[register])).toBeLessThanOrEqual(I.rad[register] + slack);
      for (let n = 0; n < 100; n++) {
        const at = centre.map((entry, k) => entry + half[k] * uniform(random, -1, 1));
        const pose = poseFromNumbers(at);
        const J = jacobian(mechanism, pose);
        legStates(mechanism, pose).forEach(({ length, u_B }, leg) => {
          holds(enclosure.length(leg), length, 1e-11);
          u_B.forEach((entry, axis) => holds(enclosure.unit(leg) + axis, entry, 1e-13));
        });
        // changes by central differences: good to some 1e-8
        const number = n % 6;
        const step = number < 3 ? 1e-4 : 1e-6;
        const moved = (sign: number) => poseFromNumbers(at.map((entry, k) => entry + (k === number ? sign * step : 0)));
        const [ahead, behind] = [jacobian(mechanism, moved(1)), jacobian(mechanism, moved(-1))];
        for (let leg = 0; leg < 6; leg++) {
          const change = (column: number) => (ahead[6 * leg + column] - behind[6 * leg + column]) / (2 * step);
          for (let axis = 0; axis < 3; axis++) {
            holds(enclosure.unitBy(leg, number) + axis, change(axis), 1e-7);
            holds(enclosure.momentBy(leg, number) + axis, change(3 + axis), 1e-5);
          }
          if (number < 3) holds(enclosure.lengthBy(leg, number), J[6 * leg + number], 1e-12);
        }
      }
    }
  });

  it('shrinks with the box: radii fall tenfold when the box does', () => {
    const box = new EnclosedBox(mechanism);
    const centre = Float64Array.of(3, 5, 170, 0.1, 0.2, 0.3);
    const radius = (size: number) => {
      box.set(
        centre,
        Float64Array.of(1, 1, 1, 0.01, 0.01, 0.01).map((entry) => entry * size),
      );
      return box.enclosure.registers.rad[box.enclosure.momentBy(2, 4)];
    };
    expect(radius(0.01) / radius(0.1)).toBeCloseTo(0.1, 1);
    expect(radius(0)).toBeLessThan(1e-10);
  });
});

describe('proof', () => {
  const mechanism = referenceLayout(limited);
  const prove = (box: PoseBox, options: ProofOptions = {}) => {
    const result = proveBox(mechanism, box, options);
    if (!result.ok) throw new Error(result.fault.message);
    return result.value;
  };

  it('decides more the deeper it may go', () => {
    const box = boxOf(13.2, 6.6);
    const shares = [0, 4, 8, 24].map((depth) => {
      const { regular } = prove(box, { depth });
      return regular.answer === 'undecided' ? regular.share : 0;
    });
    expect(shares[0]).toBe(1);
    for (let n = 1; n < shares.length; n++) expect(shares[n]).toBeLessThanOrEqual(shares[n - 1]);
    expect(shares[3]).toBe(0);
  });

  it('counts what it had no time for as undecided, with a pose in it', () => {
    const { regular, boxes } = prove(boxOf(13.2, 6.6), { boxes: 5 });
    expect(boxes).toBeLessThanOrEqual(5);
    if (regular.answer !== 'undecided') throw new Error(regular.answer);
    expect(regular.share).toBeGreaterThan(0);
    expect(regular.share).toBeLessThanOrEqual(1);
    expect(Math.abs(regular.near.position[0])).toBeLessThanOrEqual(13.2);
  });

  it('stops when it is no longer wanted, and tells how far it is', () => {
    let looks = 0;
    const told: number[] = [];
    const result = proveBox(
      mechanism,
      boxOf(13.2, 6.6),
      { clearance: defaultClearance(mechanism) },
      {
        report: (done, total) => told.push(done / total),
        shouldStop: () => ++looks > 1,
      },
    );
    if (!result.ok) throw new Error(result.fault.message);
    expect(result.value.boxes).toBeLessThanOrEqual(200_000);
    expect(result.value.regular.answer).toBe('undecided');
    for (let n = 1; n < told.length; n++) expect(told[n]).toBeGreaterThanOrEqual(told[n - 1]);
  });

  it('of a box of one pose is the judgement of that pose', () => {
    const point = prove(boxOf(0, 0), { clearance: defaultClearance(mechanism) });
    expect([point.reachable.answer, point.regular.answer, point.clear?.answer]).toEqual(['proven', 'proven', 'proven']);
    const high = prove(boxOf(0, 0, 260));
    expect(high.reachable.answer).toBe('refuted');
  });

  it('keeps a larger clearance only while it is there', () => {
    const clearance = defaultClearance(mechanism);
    expect(prove(boxOf(2, 1), { clearance, clearanceFloor: 2 }).clear?.answer).toBe('proven');
    const wide = prove(boxOf(2, 1), { clearance, clearanceFloor: 30 }).clear;
    if (wide?.answer !== 'refuted') throw new Error('not refuted');
    if (wide.reason.kind !== 'bodies') throw new Error('no bodies');
    expect(wide.reason.distance).toBeLessThan(30);
    expect(refutationWords(wide.reason)).toMatch(/^leg \d (barrel|rod) (comes within [\d.]+ mm of|meets) .+$/);
  });

  for (const size of [1e-3, 1, 1e3])
    it(`does not depend on the layout's size (x${size})`, () => {
      const own = mechanismOf(ring(100 * size, 20), ring(70 * size, 20), 150 * size, {
        ...limited,
        legs: { min: 120 * size, max: 200 * size, barrelDiameter: 22 * size, rodDiameter: 10 * size },
      });
      const base = boxOf(12, 5);
      const scaled: PoseBox = {
        centre: { ...base.centre, position: [0, 0, 150 * size] },
        half: { ...base.half, position: [12 * size, 12 * size, 12 * size] },
      };
      const result = proveBox(own, scaled, { clearance: defaultClearance(own) });
      if (!result.ok) throw new Error(result.fault.message);
      const { reachable, regular, clear } = result.value;
      expect([reachable.answer, regular.answer, clear?.answer]).toEqual(['proven', 'proven', 'proven']);
    });

  it('decides universal joints that swing past a right angle as single poses are judged (seed 132)', () => {
    const random = seededRandom(132);
    const answers = new Set<string>();
    for (let n = 0; n < 40; n++) {
      // axes that lie low, so that legs stand about as far from them as the joints may swing
      const lean = uniform(random, 60, 130) * DEG;
      const toward = Float64Array.from({ length: 6 }, () => uniform(random, -Math.PI, Math.PI));
      const joint = { tiltLimit: uniform(random, 92, 150) * DEG, mount: { kind: 'leaning', lean, toward } } as const;
      const universal = { kind: 'universal', first: { kind: 'acrossLeg' }, secondLimit: 80 * DEG } as const;
      const own = withKinds(
        referenceLayout({ ...limited, joints: { base: joint, platform: limited.joints.platform } }),
        universal,
        { kind: 'ball' },
      );
      const box = boxOf(uniform(random, 1, 6), uniform(random, 0.5, 3));
      const result = proveBox(own, box, { boxes: 20_000 });
      if (!result.ok) throw new Error(result.fault.message);
      const { reachable } = result.value;
      answers.add(reachable.answer);
      const clearance = defaultClearance(own);
      const found = contradictions({ name: '', mechanism: own, clearance, box }, result.value, 400, random);
      expect(found.reachable, `layout ${n}`).toBe(0);
      if (reachable.answer !== 'refuted') continue;
      const judge = new PoseJudge({ name: '', mechanism: own, clearance, box });
      expect(judge.reachable(poseFromAngles(reachable.pose))).toBe(false);
    }
    expect(answers).toContain('proven');
    expect(answers).toContain('refuted');
  });

  it('refuses ranges that mean nothing', () => {
    const fault = (box: PoseBox) => {
      const result = proveBox(mechanism, box);
      return result.ok ? '' : result.fault.message;
    };
    expect(fault(boxOf(-1, 2))).toBe('Half-range of x: -1; it must be at least 0.');
    expect(fault(boxOf(1, 100))).toContain('at most a quarter turn');
    expect(fault(boxOf(1, 1, Number.NaN))).toBe('The middle of the box must be six finite numbers.');
  });
});

describe('a decision about some claims only', () => {
  const mechanism = referenceLayout(limited);
  const decide = (...args: Parameters<typeof decideBox>) => {
    const result = decideBox(...args);
    if (!result.ok) throw new Error(result.fault.message);
    return result.value;
  };

  it('answers those asked, as the whole proof answers them, and looks at no more boxes', () => {
    const clearance = defaultClearance(mechanism);
    const whole = proveBox(mechanism, boxOf(10, 5), { clearance });
    if (!whole.ok) throw new Error(whole.fault.message);
    const regular = decide(mechanism, boxOf(10, 5), ['regular'], { clearance });
    expect(regular.answers).toEqual([{ question: 'regular', answer: whole.value.regular }]);
    expect(regular.boxes).toBeLessThanOrEqual(whole.value.boxes);
    expect(regular.cutShort).toBe(false);
  });

  it('leaves out clear where no bodies are given', () => {
    const { answers } = decide(mechanism, boxOf(1, 1), PROOF_QUESTIONS);
    expect(answers.map(({ question }) => question)).toEqual(['reachable', 'regular']);
    expect(decide(mechanism, boxOf(1, 1), [])).toMatchObject({ answers: [], cutShort: false });
  });

  it('says whether boxes ran out or the depth did', () => {
    const roomy = referenceLayout({ ...limited, legs: { ...limited.legs, min: 100, max: 230 } });
    const fewBoxes = decide(roomy, boxOf(30, 12), ['regular'], { boxes: 5 });
    expect(fewBoxes).toMatchObject({ cutShort: true, boxes: 5 });
    const shallow = decide(roomy, boxOf(30, 12), ['regular'], { depth: 1 });
    expect(shallow.cutShort).toBe(false);
    expect(shallow.depth).toBe(1);
    expect(shallow.answers[0].answer.answer).toBe('undecided');
  });
});
