import { describe, expect, it } from 'vitest';
import type { BoxDecision } from '../../src/reach/prove/prove.ts';
import { changeDocument, createDesignStore } from '../../src/state/design/design-store.ts';
import { ProveDesk, proofBoxes } from '../../src/state/judge/prove-desk.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';
import { settled, standInJudging } from './judging-stand-in.ts';
import { named, sampleDesign } from './sample-design.ts';

function begin() {
  const design = createDesignStore(sampleDesign);
  const session = createSessionStore();
  const { service, prove } = standInJudging();
  return { design, session, prove, desk: new ProveDesk({ design, session }, service) };
}

const proven: BoxDecision = {
  answers: [{ question: 'reachable', answer: { answer: 'proven' } }],
  boxes: 12,
  depth: 3,
  cutShort: false,
};

describe('a proof on demand', () => {
  it('asks about the box that is set up, in millimetres and radians', () => {
    const { desk, prove } = begin();
    desk.change({ half: [1, 2, 3, 4, 5, 6], asked: ['regular'], depth: 30 });
    void desk.start();
    const { box, asked, depth, boxes } = prove[0].question;
    expect(box.centre.position).toEqual([0, 0, 150]);
    expect(box.half.position).toEqual([1, 2, 3]);
    expect(box.half.yaw).toBeCloseTo((6 * Math.PI) / 180, 15);
    expect(asked).toEqual(['regular']);
    expect(depth).toBe(30);
    expect(boxes).toBe(proofBoxes(24) * 64);
  });

  it('stands about the present pose when that is chosen', () => {
    const { desk, session, prove } = begin();
    session.setState({ pose: { position: [7, 0, 140], roll: 0, pitch: 0.1, yaw: 0 } });
    desk.change({ around: 'present' });
    void desk.start();
    expect(prove[0].question.box.centre.position).toEqual([7, 0, 140]);
    desk.change({ around: 'home' });
    void desk.start();
    expect(prove[1].question.box.centre.position).toEqual([0, 0, 150]);
  });

  it('shows how far it is and then the answer, with what it was about', async () => {
    const { desk, design, prove } = begin();
    void desk.start();
    expect(desk.store.getState().run?.status).toBe('running');
    prove[0].report(0.4);
    expect(desk.store.getState().run?.share).toBe(0.4);
    changeDocument(design, named('Other'), 'Rename');
    prove[0].answer(proven);
    await settled();
    const { run } = desk.store.getState();
    expect(run?.status).toBe('done');
    expect(run?.decision).toBe(proven);
    expect(run?.subject.document).toBe(sampleDesign);
  });

  it('keeps how far it came when it is cancelled', async () => {
    const { desk, prove } = begin();
    void desk.start();
    prove[0].report(0.7);
    desk.cancel();
    await settled();
    const { run } = desk.store.getState();
    expect(run?.status).toBe('cancelled');
    expect(run?.share).toBe(0.7);
    expect(run?.decision).toBeNull();
  });

  it('drops what an earlier proof still says', async () => {
    const { desk, prove } = begin();
    void desk.start();
    void desk.start();
    prove[0].report(0.9);
    await settled();
    expect(desk.store.getState().run?.status).toBe('running');
    expect(desk.store.getState().run?.share).toBe(0);
    prove[1].end({ kind: 'failed', reason: 'out of luck' });
    await settled();
    expect(desk.store.getState().run).toMatchObject({ status: 'failed', failure: 'out of luck' });
  });
});
