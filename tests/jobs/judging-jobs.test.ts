import { describe, expect, it } from 'vitest';
import { compiledDesign, homePose, inputsOf } from '../../src/document/compiled.ts';
import { judgingJobs } from '../../src/jobs/judging-jobs.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { poseCurves } from '../../src/reach/field/pose-curves.ts';
import { proveBox } from '../../src/reach/prove/prove.ts';
import { PROOF_QUESTIONS } from '../../src/reach/prove/prove-claims.ts';
import { helpsOfPlan } from '../../src/reach/what-helps.ts';
import { settingsOf } from '../../src/state/design/judging-inputs.ts';
import { helpsPlanOf } from '../../src/state/judge/helps-desk.ts';
import { boxOf } from '../../src/state/judge/prove-desk.ts';
import { sampleDesign } from '../state/sample-design.ts';

const { spec } = compiledDesign(sampleDesign).mechanism;
const home = homePose(sampleDesign);
const none = () => undefined;

/** As it would be on the other side of a worker. */
const crossed = <Value>(value: Value): Value => structuredClone(value);

describe('judging jobs', () => {
  it('answer as the functions themselves, after a copy', () => {
    const settings = settingsOf(sampleDesign);
    const curves = judgingJobs.curves(crossed({ spec, pose: home, settings, floors: [] }));
    const direct = poseCurves(compileMechanism(spec), home, settings);
    expect(direct.ok && direct.value).toEqual(curves);
    const plan = helpsPlanOf(sampleDesign);
    const helps = judgingJobs.helps(crossed({ plan, floors: null }), none);
    const directHelps = helpsOfPlan(plan, null);
    expect(directHelps.ok && directHelps.value).toEqual(helps);
  });

  it('decide about a box as the proof does, and tell how far they are', () => {
    const { clearance } = inputsOf(sampleDesign);
    const box = boxOf([5, 5, 5, 2, 2, 2], home);
    const shares: number[] = [];
    const rest = { asked: PROOF_QUESTIONS, clearance, clearanceFloor: 0, depth: 24, boxes: 1e5 };
    const decision = judgingJobs.prove(crossed({ spec, box, ...rest }), (share) => shares.push(share));
    const direct = proveBox(compileMechanism(spec), box, { clearance });
    if (!direct.ok) throw new Error(direct.fault.message);
    expect(decision.answers.map(({ answer }) => answer)).toEqual([
      direct.value.reachable,
      direct.value.regular,
      direct.value.clear,
    ]);
    expect(decision.boxes).toBe(direct.value.boxes);
    expect(shares.length).toBeGreaterThan(0);
    for (const share of shares) expect(share).toBeGreaterThanOrEqual(0);
  });

  it('throw the reason when a box cannot be judged', () => {
    const { clearance } = inputsOf(sampleDesign);
    const box = boxOf([5, 5, 5, 100, 2, 2], home);
    const rest = { asked: PROOF_QUESTIONS, clearance, clearanceFloor: 0, depth: 24, boxes: 10 };
    expect(() => judgingJobs.prove({ spec, box, ...rest }, none)).toThrow(/Half-range of roll/);
  });
});
