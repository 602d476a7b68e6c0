import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JobOutcome } from '../../src/jobs/outcome.ts';
import type { ReachService } from '../../src/jobs/reach-service.ts';
import { changeDocument, createDesignStore, previewDocument } from '../../src/state/design/design-store.ts';
import { FIRST_DELAY, followReach, REFINE_DELAY, TILTED_DELAY } from '../../src/state/reach/reach-controller.ts';
import { createResultsStore, isCurrent } from '../../src/state/reach/results-store.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';
import { named } from './sample-design.ts';

interface Call {
  readonly name: string;
  readonly answer: (outcome: JobOutcome<never>) => void;
}

/** Notes every question and leaves the answers to the test. */
function handService() {
  const calls: Call[] = [];
  const ask = (name: string) =>
    new Promise<JobOutcome<never>>((answer) => {
      calls.push({ name, answer });
    });
  const service: ReachService = {
    summary: () => ask('summary'),
    picture: (_, detail) => ask(detail),
    tilted: () => ask('tilted'),
    pinned: () => ask('pinned'),
    stop: (job) => void calls.push({ name: `stop ${job}`, answer: () => undefined }),
  };
  return { service, calls, names: () => calls.map(({ name }) => name) };
}

function begin() {
  const design = createDesignStore(named('first'));
  const session = createSessionStore();
  const results = createResultsStore();
  const hand = handService();
  const stop = followReach({ design, session, results }, hand.service);
  return { design, session, results, stop, ...hand };
}

const failed = (reason: string): JobOutcome<never> => ({ kind: 'failed', reason });

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('following the design', () => {
  it('asks for numbers, then a coarse drawing, a fine one when quiet, and the tilt range last', () => {
    const { names } = begin();
    expect(names()).toEqual(['stop fine', 'summary', 'coarse', 'stop tilted']);
    vi.advanceTimersByTime(FIRST_DELAY + REFINE_DELAY);
    expect(names().slice(4)).toEqual(['fine']);
    vi.advanceTimersByTime(TILTED_DELAY - REFINE_DELAY);
    expect(names().slice(5)).toEqual(['tilted']);
  });

  it('puts the fine drawing and the tilt range off while a slider moves', () => {
    const { design, names } = begin();
    vi.advanceTimersByTime(FIRST_DELAY + TILTED_DELAY);
    const before = names().length;
    for (let n = 0; n < 10; n++) {
      previewDocument(design, named(`draft ${n}`));
      vi.advanceTimersByTime(REFINE_DELAY / 2);
    }
    expect(names().slice(before)).toEqual(Array(10).fill(['stop fine', 'summary', 'coarse', 'stop tilted']).flat());
    vi.advanceTimersByTime(TILTED_DELAY);
    expect(names().slice(before + 40)).toEqual(['fine', 'tilted']);
  });

  it('asks once for a pinned design, and again when the tilt range changes', () => {
    const { design, session, names } = begin();
    const count = () => names().filter((name) => name === 'pinned').length;
    const kept = design.getState().document;
    session.setState({ pinned: kept });
    changeDocument(design, named('second'), 'Rename');
    expect(count()).toBe(1);
    session.setState({ tiltRange: 0.3 });
    expect(count()).toBe(2);
    session.setState({ pinned: null });
    expect(count()).toBe(2);
  });

  it('asks again for a turn of the platform only when the reach is taken there, and never for a mere shift', () => {
    const { session, names } = begin();
    const pose = (x: number, yaw: number) => ({ position: [x, 0, 150] as const, roll: 0, pitch: 0, yaw });
    const count = () => names().filter((name) => name === 'summary').length;
    session.setState({ pose: pose(5, 0.1) });
    expect(count()).toBe(1);
    session.setState({ reachOrientation: 'present' });
    expect(count()).toBe(2);
    session.setState({ pose: pose(9, 0.1) });
    expect(count()).toBe(2);
    session.setState({ pose: pose(9, 0.2) });
    expect(count()).toBe(3);
  });

  it('asks for the tilt range again when the range changes, and for nothing else', () => {
    const { session, names } = begin();
    vi.advanceTimersByTime(FIRST_DELAY + TILTED_DELAY);
    const before = names().length;
    session.setState({ tiltRange: 0.3 });
    vi.advanceTimersByTime(TILTED_DELAY);
    expect(names().slice(before)).toEqual(['stop tilted', 'tilted']);
  });

  it('drops an answer that is older than the one on screen', async () => {
    const { design, results, calls } = begin();
    changeDocument(design, named('second'), 'Rename');
    const [older, newer] = calls.filter(({ name }) => name === 'summary');
    expect(results.getState().summary.working).toBe(true);
    newer.answer(failed('newer'));
    await vi.advanceTimersByTimeAsync(0);
    older.answer(failed('older'));
    await vi.advanceTimersByTimeAsync(0);
    expect(results.getState().summary).toEqual({ finished: null, working: false, failure: 'newer' });
  });

  it('shows a late answer until the newer one comes, still marked as working', async () => {
    const { design, results, calls } = begin();
    changeDocument(design, named('second'), 'Rename');
    const [older, newer] = calls.filter(({ name }) => name === 'summary');
    older.answer(failed('older'));
    await vi.advanceTimersByTimeAsync(0);
    expect(results.getState().summary).toMatchObject({ working: true, failure: 'older' });
    newer.answer({ kind: 'cancelled' });
    await vi.advanceTimersByTimeAsync(0);
    expect(results.getState().summary).toMatchObject({ working: true, failure: 'older' });
  });

  it('asks nothing more once it is stopped', () => {
    const { design, stop, names } = begin();
    stop();
    const before = names().length;
    changeDocument(design, named('second'), 'Rename');
    vi.advanceTimersByTime(10 * TILTED_DELAY);
    expect(names()).toHaveLength(before);
  });
});

describe('isCurrent', () => {
  it('goes by the parts of the document and by the angles', () => {
    const document = named('one');
    const pose = { position: [0, 0, 150] as const, roll: 0.1, pitch: 0, yaw: 0 };
    const moved = { ...pose, position: [9, 9, 9] as const };
    expect(isCurrent({ document, pose: null }, document, null)).toBe(true);
    expect(isCurrent({ document, pose }, document, moved)).toBe(true);
    expect(isCurrent({ document, pose }, document, { ...pose, roll: 0.2 })).toBe(false);
    expect(isCurrent({ document, pose }, document, null)).toBe(false);
    expect(isCurrent({ document, pose }, named('one'), pose)).toBe(true);
    expect(isCurrent({ document, pose }, structuredClone(document), pose)).toBe(false);
  });
});
