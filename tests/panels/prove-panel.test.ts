import { describe, expect, it } from 'vitest';
import { overallWord, poseWords, progressWords, shareText } from '../../src/panels/prove/proof-words.ts';
import type { BoxDecision, ProofAnswer } from '../../src/reach/prove.ts';
import type { ProofRun } from '../../src/state/prove-desk.ts';
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
    const refuted: ProofAnswer = { answer: 'refuted', pose, reason: 'leg 3 would be 2 mm too long' };
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
