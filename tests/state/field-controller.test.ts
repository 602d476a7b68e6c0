import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { FieldService } from '../../src/jobs/field-service.ts';
import type { JobOutcome } from '../../src/jobs/outcome.ts';
import type { ReachPicture } from '../../src/jobs/reach-picture.ts';
import type { CutQuestion } from '../../src/reach/field/field-cut.ts';
import { changeDocument, createDesignStore } from '../../src/state/design/design-store.ts';
import { followField, USABLE_DELAY } from '../../src/state/reach/field-controller.ts';
import { createFieldStore } from '../../src/state/reach/field-store.ts';
import { FIRST_DELAY } from '../../src/state/reach/reach-controller.ts';
import { createResultsStore } from '../../src/state/reach/results-store.ts';
import { sameReach } from '../../src/state/reach/same-reach.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';
import { named, sampleDesign } from './sample-design.ts';

const STILL = { working: false, failure: null };

function pictureOf(detail: ReachPicture['detail']): ReachPicture {
  const points = {
    positions: Float64Array.of(-40, -40, 110, 40, 40, 190),
    magnifications: new Float64Array(2).fill(2),
    limits: new Uint8Array(2),
  };
  return { detail, cloud: points, shell: { ...points, normals: new Float64Array(6), indices: new Uint32Array(0) } };
}

/** Notes every question and leaves it unanswered. */
function begin() {
  const names: string[] = [];
  const cuts: CutQuestion[] = [];
  const never = <Value>(name: string) => {
    names.push(name);
    return new Promise<JobOutcome<Value>>(() => undefined);
  };
  const service: FieldService = {
    field: () => never('field'),
    cut: (_, cut) => {
      cuts.push(cut);
      return never('cut');
    },
    signs: () => never('signs'),
    usable: () => never('usable'),
  };
  const design = createDesignStore(sampleDesign);
  const session = createSessionStore();
  const results = createResultsStore();
  const field = createFieldStore();
  const stop = followField({ design, session, results, field }, service);
  const show = (value: ReachPicture, document = design.getState().document) =>
    results.setState({ picture: { ...STILL, finished: { subject: { document, pose: null }, value } } });
  return { names, cuts, design, session, results, field, stop, show };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('following the field', () => {
  it('asks for nothing over a drawn reach that is coloured without it', () => {
    const { names, show } = begin();
    show(pictureOf('fine'));
    expect(names).toEqual([]);
  });

  it('asks once for the field of a fine picture when a quantity colours it, and never for a coarse one', () => {
    const { names, session, show } = begin();
    show(pictureOf('coarse'));
    session.setState({ reachColouring: 'toolError' });
    expect(names).toEqual([]);
    show(pictureOf('fine'));
    session.setState({ reachColouring: 'clearance' });
    session.setState({ showCones: false });
    expect(names).toEqual(['field']);
    session.setState({ reachDrawing: 'none' });
    show(pictureOf('fine'));
    expect(names).toEqual(['field']);
  });

  it('asks for a cut where it stands: at the tool point, or where it was put', () => {
    const { cuts, session, show } = begin();
    show(pictureOf('fine'));
    session.setState({ cut: { shown: true, axis: 2, at: null } });
    expect(cuts.map(({ plane, quantity }) => [plane.at, quantity])).toEqual([[150, 'magnification']]);
    session.setState({ cut: { shown: true, axis: 2, at: 120 }, reachColouring: 'legForce' });
    expect(cuts.at(-1)).toMatchObject({ plane: { axis: 2, at: 120 }, quantity: 'legForce', leg: null, floors: [] });
    // the reach with some room around it
    expect(cuts.at(-1)?.plane.low[0]).toBeCloseTo(-40 - 0.03 * 80, 9);
    session.setState({ signs: { shown: true, leg: 4 } });
    expect(cuts.at(-1)?.leg).toBe(4);
  });

  it('does not ask a cut for stiffness that the design does not state', () => {
    const { cuts, session, show } = begin();
    show(pictureOf('fine'));
    session.setState({ cut: { shown: true, axis: 0, at: 3 }, reachColouring: 'stiffness' });
    expect(cuts.at(-1)?.quantity).toBe('magnification');
  });

  it('leaves the field of a former design alone', () => {
    const { names, session, design, show } = begin();
    show(pictureOf('fine'));
    changeDocument(design, named('second'), 'Rename');
    session.setState({ reachColouring: 'toolError' });
    expect(names).toEqual([]);
  });

  it('leaves out of a cut the floors that nothing is known for, and keeps the others', () => {
    const { cuts, design, session, show } = begin();
    const floors = { stiffness_N_mm: 10, clearance_mm: 2 };
    changeDocument(design, { ...sampleDesign, floors }, 'Floors');
    session.setState(({ cut }) => ({ cut: { ...cut, shown: true } }));
    show(pictureOf('fine'));
    // the sample says nothing of its legs' stiffness
    expect(cuts.map((cut) => cut.floors.map(({ quantity }) => quantity))).toEqual([['clearance']]);
    changeDocument(design, { ...sampleDesign, floors, stiffness: { leg_N_mm: 500 } }, 'Stiffness');
    show(pictureOf('fine'));
    expect(cuts.at(-1)?.floors.map(({ quantity }) => quantity)).toEqual(['stiffness', 'clearance']);
  });

  it('asks for the usable volume once all is quiet, and says at once when a floor cannot be judged', async () => {
    const { names, design, field } = begin();
    vi.advanceTimersByTime(FIRST_DELAY + USABLE_DELAY);
    expect(names).toEqual(['usable']);
    for (const value of [0.1, 0.2, 0.3]) {
      changeDocument(design, { ...sampleDesign, floors: { toolError_mm: value } }, 'Floor');
      vi.advanceTimersByTime(USABLE_DELAY / 2);
    }
    expect(names).toEqual(['usable']);
    vi.advanceTimersByTime(USABLE_DELAY);
    expect(names).toEqual(['usable', 'usable']);
    changeDocument(design, { ...sampleDesign, floors: { stiffness_N_mm: 10 } }, 'Floor');
    await vi.advanceTimersByTimeAsync(USABLE_DELAY);
    expect(names).toEqual(['usable', 'usable']);
    expect(field.getState().usable.failure).toMatch(/does not say how stiff its legs are/);
  });

  it('asks nothing more once it is stopped', () => {
    const { names, session, stop, show } = begin();
    stop();
    session.setState({ reachColouring: 'toolError' });
    show(pictureOf('fine'));
    vi.advanceTimersByTime(10 * FIRST_DELAY);
    expect(names).toEqual([]);
  });
});

describe('the same reach', () => {
  it('is that of one design, and of designs that differ in their floors alone', () => {
    const floored = { ...named('a'), floors: { clearance_mm: 2 } };
    expect(sameReach(floored, floored)).toBe(true);
    expect(sameReach(named('a'), floored)).toBe(true);
    expect(sameReach(named('b'), floored)).toBe(false);
    expect(sameReach(named('a'), named('a'))).toBe(true);
    expect(sameReach(named('a'), structuredClone(named('a')))).toBe(false);
    expect(sameReach({ ...named('a'), characteristicLength_mm: 70 }, named('a'))).toBe(false);
  });
});
