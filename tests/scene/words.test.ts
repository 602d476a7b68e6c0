import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { looseWords, pinnedWords, reachWords } from '../../src/scene/model/caption-words.ts';
import { outlinePoints } from '../../src/scene/model/outline-points.ts';
import { sceneView } from '../../src/scene/model/scene-view.ts';
import { summaryWords } from '../../src/scene/model/summary-words.ts';
import { poseWarnings } from '../../src/scene/model/warnings.ts';
import { createSessionStore, type SessionState } from '../../src/state/session/session-store.ts';

const session = (part: Partial<SessionState> = {}): SessionState => ({ ...createSessionStore().getState(), ...part });
const HIGH = { position: [0, 0, 225] as const, roll: 0, pitch: 0, yaw: 0 };

describe('warnings in the drawing', () => {
  it('name leg, limit and number, at the leg concerned', () => {
    const view = sceneView(DEMOS.steady, session({ pose: HIGH }), false);
    const warnings = poseWarnings(view);
    // all six alike: sqrt(rho^2 + 225^2), rho^2 = 100^2 + 70^2 - 2 100 70 cos(40 deg)
    const length = Math.sqrt(100 ** 2 + 70 ** 2 - 14000 * Math.cos((40 * Math.PI) / 180) + 225 ** 2);
    expect(warnings.map(({ words }) => words)).toEqual(
      [1, 2, 3, 4, 5, 6].map((leg) => `leg ${leg} too long ${length.toFixed(1)} mm`),
    );
    for (const { anchor } of warnings) expect(anchor[2]).toBeCloseTo(0.68 * 225, 9);
  });

  it('say how far a joint is tilted and how far it may be', () => {
    const view = sceneView(DEMOS.steady, session({ pose: { ...HIGH, position: [0, 0, 150], roll: 0.5 } }), false);
    const joints = poseWarnings(view).filter(({ limit }) => limit === 'platformJoint');
    expect(joints.length).toBeGreaterThan(0);
    for (const { words } of joints) expect(words).toMatch(/^leg \d platform joint \d+\.\d of 25 deg$/);
  });

  it('name the angle that a rod end limits', () => {
    const { joints } = DEMOS.steady;
    const rodEnds = {
      ...DEMOS.steady,
      joints: { ...joints, base: { ...joints.base, kind: 'rodEnd', tilt_deg: 15 } },
    } as const;
    const view = sceneView(rodEnds, session({ pose: { ...HIGH, position: [60, 0, 150] } }), false);
    const broken = poseWarnings(view).filter(({ limit }) => limit === 'baseJoint');
    expect(broken.length).toBeGreaterThan(0);
    for (const { words } of broken) expect(words).toMatch(/^leg \d base bolt tilt \d+\.\d of 15 deg$/);
  });

  it('name two bodies that meet, and a distance only where it is asked for', () => {
    const cylinder = { from_mm: [0, 0, 0], to_mm: [0, 0, 100], diameter_mm: 30 } as const;
    const post = { name: 'post', fixedTo: 'base', shape: { cylinder } } as const;
    const apart = { ...DEMOS.steady, keepOuts: [post] };
    expect(poseWarnings(sceneView(apart, session(), false))).toEqual([]);
    const [asked] = poseWarnings(sceneView(apart, session({ clearanceShown: true }), false));
    expect(asked.limit).toBe('apart');
    expect(asked.words).toMatch(/ \d+\.\d mm$/);
    const [near] = poseWarnings(sceneView({ ...apart, floors: { clearance_mm: 50 } }, session(), false));
    expect(near.limit).toBe('near');
    expect(near.words).toMatch(/ \d+\.\d mm of 50 mm$/);
    const wide = { ...post, shape: { cylinder: { ...cylinder, diameter_mm: 190 } } };
    const [meeting] = poseWarnings(sceneView({ ...apart, keepOuts: [wide] }, session(), false));
    expect(meeting.limit).toBe('meet');
    expect(meeting.words).toMatch(/^leg \d barrel meets post$/);
  });
});

describe('the drawing in words', () => {
  it('names other joints than balls, bodies, and the two nearest where they are marked', () => {
    const cylinder = { from_mm: [0, 0, 0], to_mm: [0, 0, 100], diameter_mm: 30 } as const;
    const { joints } = DEMOS.steady;
    const design = {
      ...DEMOS.steady,
      joints: { ...joints, base: { ...joints.base, kind: 'rodEnd' } },
      payload: { mass_kg: 1, shape: { box: { middle_mm: [0, 0, 40], size_mm: [20, 20, 20] } } },
      keepOuts: [{ name: 'post', fixedTo: 'base', shape: { cylinder } }],
    } as const;
    const words = summaryWords(design, session({ clearanceShown: true }));
    expect(words).toContain('Base joints: rod ends with their bolts; platform joints: balls in sockets.');
    expect(words).toContain('The payload is drawn as a box. Keep-out volumes: K1 post on the base.');
    expect(words).toMatch(/Nearest bodies: leg \d \w+ to .+ \d+\.\d mm\./);
    expect(summaryWords(DEMOS.steady, session())).not.toMatch(/joints:|payload|Keep-out|Nearest/);
  });
});

describe('the view', () => {
  it('stands at home without a pose, and rocks only while the loosest motion is shown', () => {
    const still = sceneView(DEMOS.steady, session(), false);
    expect(still.drawnPose).toBe(still.pose);
    const shown = session({ looseMotion: { shown: true, playing: true, phase: 0.25 } });
    const rocking = sceneView(DEMOS.steady, shown, false);
    expect(rocking.drawnPose).not.toBe(rocking.pose);
    expect(rocking.loose?.ends).toEqual([]);
    const reduced = sceneView(DEMOS.steady, shown, true);
    expect(reduced.drawnPose).toBe(reduced.pose);
    expect(reduced.loose?.ends).toHaveLength(2);
  });

  it('shows the pinned design at the pose of the live one', () => {
    const { ghost } = sceneView(DEMOS.steady, session({ pinned: DEMOS.roomy, pose: HIGH }), false);
    expect(ghost?.pose.p_BoTo_B).toEqual([0, 0, 225]);
    expect(sceneView(DEMOS.steady, session({ pinned: DEMOS.roomy }), false).ghost?.pose.p_BoTo_B).toEqual([0, 0, 157]);
  });

  it('is framed with both plates, the tool and the reach in it', () => {
    const { mechanism, pose } = sceneView(DEMOS.steady, session(), false);
    const reach = Float64Array.of(-300, 0, 50, 0, 320, 90);
    const points = outlinePoints(mechanism, pose, reach);
    const extent = (k: number) => [Math.min(...points.map((p) => p[k])), Math.max(...points.map((p) => p[k]))];
    expect(extent(0)[0]).toBe(-300);
    expect(extent(1)[1]).toBe(320);
    expect(extent(2)[0]).toBeLessThan(-12);
    expect(extent(2)[1]).toBeGreaterThan(162);
  });
});

describe('words beside the drawing', () => {
  it('say what the reach is of, and when it is not up to date', () => {
    const current = { any: true, stale: false, failure: null };
    expect(reachWords(session(), current)).toBe('Reach at home orientation');
    expect(reachWords(session({ reachOrientation: 'present', pose: HIGH }), current)).toContain('present orientation');
    expect(reachWords(session({ reachDrawing: 'none' }), current)).toBeNull();
    expect(reachWords(session(), { ...current, stale: true })).toContain('grey');
    expect(reachWords(session(), { ...current, any: false })).toContain('is being found');
    expect(reachWords(session(), { ...current, failure: 'the worker stopped' })).toContain('the worker stopped');
  });

  it('say how much larger the loosest motion is shown, or that it has no size', () => {
    const shown = session({ looseMotion: { shown: true, playing: false, phase: 0 } });
    expect(looseWords(DEMOS.steady, shown)).toMatch(/shown [\d,]+ times larger than 0\.1 mm of play/);
    expect(looseWords(DEMOS.even, shown)).toContain('do not stop it');
    expect(looseWords(DEMOS.steady, session())).toBeNull();
  });

  it('name the pinned design', () => {
    expect(pinnedWords(session({ pinned: DEMOS.roomy }))).toContain('Wave table, roomy');
    expect(pinnedWords(session())).toBeNull();
  });

  it('tell those who cannot see the drawing what is in it', () => {
    const words = summaryWords(DEMOS.steady, session({ pose: HIGH, pinned: DEMOS.roomy }));
    // sqrt(100^2 + 70^2 - 2 100 70 cos(40 deg) + 225^2), worked out by hand
    expect(words).toContain('leg 1 234.1 mm');
    expect(words).toContain('z 225.0 mm');
    expect(words).toContain('leg 6 too long');
    expect(words).toContain('pinned');
    expect(words).not.toMatch(/NaN|undefined|Infinity/);
    expect(summaryWords(DEMOS.steady, session({ reachDrawing: 'none' }))).toContain('All limits hold');
  });
});
