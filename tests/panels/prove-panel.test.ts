import { describe, expect, it } from 'vitest';
import { demandRows } from '../../src/panels/prove/demand-rows.ts';
import { overallWord, poseWords, progressWords, shareText } from '../../src/panels/prove/proof-words.ts';
import { boxDemands } from '../../src/reach/prove/box-demands.ts';
import type { BoxDecision, ProofAnswer } from '../../src/reach/prove/prove.ts';
import type { ProofRun } from '../../src/state/judge/prove-desk.ts';
import { refutationWords } from '../../src/words/refutation.ts';
import { DEG, referenceLayout, withKinds } from '../kinematics/designs.ts';
import { sampleDesign } from '../state/sample-design.ts';

const pose = { position: [10, -0.001, 150], roll: 0, pitch: Math.PI / 36, yaw: -Math.PI / 36 } as const;

const decided = (...answers: ProofAnswer[]): BoxDecision => ({
  answers: answers.map((answer) => ({ question: 'reachable', answer })),
  boxes: 1234,
  depth: 9,
  cutShort: false,
});

const run = (change: Partial<ProofRun>): ProofRun => ({
  subject: {
    document: sampleDesign,
    box: { centre: pose, half: pose },
    setup: { half: [1, 1, 1, 1, 1, 1], around: 'home', asked: ['reachable'], keep_mm: 0, depth: 24 },
    boxes: 2e5,
  },
  status: 'running',
  share: 0,
  time: 0,
  decision: null,
  failure: null,
  ...change,
});

describe('words of a proof', () => {
  it('is proven only when every answer is, refuted as soon as one is', () => {
    const proven: ProofAnswer = { answer: 'proven' };
    const open: ProofAnswer = { answer: 'undecided', share: 0.1, near: pose };
    const reason = { kind: 'limit', limit: 'legTooLong', leg: 3, excess: 2 } as const;
    const refuted: ProofAnswer = { answer: 'refuted', pose, reason };
    expect(refutationWords(reason)).toBe('leg 3 would be 2.00 mm too long');
    expect(refutationWords({ ...reason, limit: 'baseJoint', excess: 2 * DEG })).toBe(
      'the base joint of leg 3 would tilt 2.00 deg too far',
    );
    expect(refutationWords({ kind: 'singular' })).toBe('the legs stop being independent there');
    expect(overallWord(decided(proven, proven))).toBe('proven');
    expect(overallWord(decided(proven, open))).toBe('undecided');
    expect(overallWord(decided(open, refuted))).toBe('refuted');
  });

  it('states poses in millimetres and degrees, and a small share as more than nothing', () => {
    expect(poseWords(pose)).toBe('x 10.00, y 0.00, z 150.00 mm, roll 0.00, pitch 5.00, yaw −5.00 deg');
    expect(shareText(0.0123)).toBe('1.23 %');
    expect(Number.parseFloat(shareText(1e-20))).toBeGreaterThan(0);
  });

  it('says how far it is, and that a cancelled proof proves nothing', () => {
    expect(progressWords(run({ share: 0.25, time: 10_000 }))).toBe('25 % of the box settled, 30 s left');
    expect(progressWords(run({ status: 'cancelled', share: 0.25, time: 10_000 }))).toMatch(/10 s .* nothing is proven/);
    const done = run({ status: 'done', share: 1, time: 1234, decision: decided({ answer: 'proven' }) });
    expect(progressWords(done)).toBe('Decided in 1.23 s, 1234 parts looked at.');
  });
});

describe('what a box asks of the parts', () => {
  const angle = 10 * DEG;
  const box = {
    centre: { position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 },
    half: { position: [20, 20, 20], roll: angle, pitch: angle, yaw: angle },
  } as const;
  const aimed = (tiltLimit_deg: number) => ({ tiltLimit: tiltLimit_deg * DEG, mount: { kind: 'aimed' } }) as const;
  const mechanism = referenceLayout({
    legs: { min: 116, max: 200, barrelDiameter: 22, rodDiameter: 10 },
    joints: { base: aimed(25), platform: aimed(25) },
  });

  it('states the trade’s figures for the reference layout beside the limits, and by how much one is passed', () => {
    // worked figures of the trade, computed outside this program: legs of 116.5 to 214.8 mm, 19.8 and 31.9 deg aimed
    const rows = demandRows(mechanism, boxDemands(mechanism, box));
    expect(rows.map(({ part, asked, limit, holds }) => [part, asked, limit, holds])).toEqual([
      ['Shortest leg', '116.5 mm', '≥ 116 mm', true],
      ['Longest leg', '214.8 mm', '≤ 200 mm', false],
      ['Largest base tilt', '19.8 deg', '≤ 25 deg', true],
      ['Largest platform tilt', '31.9 deg', '≤ 25 deg', false],
    ]);
    const corner = 'at x −?20, y −?20, z 1[37]0 mm, roll −?10, pitch −?10, yaw −?10 deg$';
    expect(rows[0].where).toMatch(new RegExp(`^Leg [1-6] ${corner}`));
    expect(rows[1].where).toMatch(new RegExp(`^Leg [1-6], 14.8 mm past it, ${corner}`));
    expect(rows[3].where).toMatch(new RegExp(`^Leg [1-6], 6.8[78] deg past it, ${corner}`));
  });

  it('speaks of room, not of tilt, where joints are no balls', () => {
    const across = { kind: 'acrossLeg' } as const;
    const mixed = withKinds(
      mechanism,
      { kind: 'rodEnd', bolt: across },
      { kind: 'universal', first: across, secondLimit: 1 },
    );
    const rows = demandRows(mixed, boxDemands(mixed, box)).slice(2);
    expect(rows.map(({ part, limit }) => [part, limit])).toEqual([
      ['Least room, base rod ends', '≥ 0 deg'],
      ['Least room, platform universal joints', '≥ 0 deg'],
    ]);
  });
});
