import { describe, expect, it } from 'vitest';
import { changeRing } from '../../src/document/edits/edit.ts';
import type { PoseAngles } from '../../src/kinematics/pose.ts';
import type { PoseCurves } from '../../src/reach/field/pose-curves.ts';
import { changeDocument, createDesignStore } from '../../src/state/design/design-store.ts';
import { CurvesDesk } from '../../src/state/judge/curves-desk.ts';
import { createPointedStore } from '../../src/state/session/pointed-store.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';
import { settled, standInJudging } from './judging-stand-in.ts';
import { sampleDesign } from './sample-design.ts';

function begin() {
  const stores = {
    design: createDesignStore(sampleDesign),
    session: createSessionStore(),
    pointed: createPointedStore(),
  };
  const { service, curves } = standInJudging();
  return { ...stores, curves, desk: new CurvesDesk(stores, service) };
}

const pose: PoseAngles = { position: [5, 0, 150], roll: 0, pitch: 0, yaw: 0 };
const empty = (): PoseCurves => ({ curves: [], quantities: [] });

describe('curves that follow', () => {
  it('are asked for only while somebody looks', () => {
    const { desk, session, curves } = begin();
    session.setState({ pose });
    expect(curves).toHaveLength(0);
    const stop = desk.watch();
    expect(curves[0].question.pose).toBe(pose);
    stop();
    session.setState({ pose: null });
    expect(curves).toHaveLength(1);
  });

  it('are asked for anew for another pose or design, not for anything else', () => {
    const { desk, design, session, curves } = begin();
    desk.watch();
    session.setState({ highlightedLeg: 3 });
    expect(curves).toHaveLength(1);
    session.setState({ pose });
    changeDocument(design, changeRing(sampleDesign, 'base', { gap_deg: 25 }), 'Gap');
    expect(curves).toHaveLength(3);
  });

  it('say what they were computed for; a late answer does not replace a newer one', async () => {
    const { desk, session, curves } = begin();
    desk.watch();
    session.setState({ pose });
    const newer = empty();
    curves[1].answer(newer);
    await settled();
    curves[0].answer(empty());
    await settled();
    const { finished } = desk.store.getState().curves;
    expect(finished?.value).toBe(newer);
    expect(finished?.subject.pose).toBe(pose);
  });

  it('take the ghost away when nobody looks any more', () => {
    const { desk, pointed } = begin();
    const stop = desk.watch();
    pointed.setState({ pose });
    stop();
    expect(pointed.getState().pose).toBeNull();
  });
});
