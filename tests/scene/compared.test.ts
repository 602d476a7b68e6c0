import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { reachSurface } from '../../src/jobs/reach-picture.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { cross, dot, length, subtract, type Vec3 } from '../../src/math/vec3.ts';
import {
  type ComparedDrawing,
  legsOnSheet,
  reachPath,
  surroundings,
} from '../../src/scene/compare/compared-drawing.ts';
import { inViewAxes, onSheet, STANDARD_ANGLES, turned, viewBasis } from '../../src/scene/compare/turned-view.ts';
import { comparedShells, comparedWords } from '../../src/scene/model/compared-shells.ts';
import { type CompareState, createCompareStore } from '../../src/state/compare/compare-store.ts';
import { layoutKey } from '../../src/state/design/layout-key.ts';

const mechanism = mechanismFromDocument(DEMOS.steady);
const shell = reachSurface(mechanism, mechanism.home.R_BP, 30);
const drawing: ComparedDrawing = { letter: 'a', title: 'steady', mechanism, shell };

describe('a view', () => {
  it.each([-2, -0.5, 0, 0.3, 1.2])('has right-handed unit axes (azimuth %f)', (azimuth) => {
    for (const elevation of [-1.5, -0.4, 0, 0.7, Math.PI / 2]) {
      const { right, up, toEye } = viewBasis({ azimuth, elevation });
      for (const axis of [right, up, toEye]) expect(length(axis)).toBeCloseTo(1, 12);
      expect(dot(right, up)).toBeCloseTo(0, 12);
      expect(length(subtract(cross(right, up), toEye))).toBeCloseTo(0, 12);
      expect(up[2]).toBeGreaterThanOrEqual(0);
    }
  });

  it('from above shows x to the right and y upward, from the front x and z, from the right y and z', () => {
    const point: Vec3 = [3, 5, 7];
    const seen = (view: 'top' | 'front' | 'right') => onSheet(viewBasis(STANDARD_ANGLES[view]), point);
    for (const [view, x, y] of [
      ['top', 3, -5],
      ['front', 3, -7],
      ['right', 5, -7],
    ] as const) {
      expect(seen(view)[0]).toBeCloseTo(x, 12);
      expect(seen(view)[1]).toBeCloseTo(y, 12);
    }
  });

  it('never turns over the top', () => {
    expect(turned(STANDARD_ANGLES.top, 0, 1).elevation).toBe(Math.PI / 2);
    expect(turned(STANDARD_ANGLES.front, 0, -4).elevation).toBe(-Math.PI / 2);
  });

  it('keeps distances of points', () => {
    const points = Float64Array.of(1, 2, 3, -4, 5, 9);
    const seen = inViewAxes(points, viewBasis({ azimuth: 0.7, elevation: 0.4 }));
    const span = (p: Float64Array) => Math.hypot(p[0] - p[3], p[1] - p[4], p[2] - p[5]);
    expect(span(seen)).toBeCloseTo(span(points), 12);
  });
});

describe('a compared drawing', () => {
  it('shows no leg longer than it is, and its full length across the view', () => {
    const states = legStates(mechanism, mechanism.home);
    for (const { leg, from, to } of legsOnSheet(mechanism, viewBasis(STANDARD_ANGLES.isometric))) {
      expect(Math.hypot(from[0] - to[0], from[1] - to[1])).toBeLessThanOrEqual(states[leg - 1].length + 1e-9);
    }
    const { u_B, length: size } = states[0];
    const across = viewBasis({ azimuth: Math.atan2(u_B[1], u_B[0]) + Math.PI / 2, elevation: 0 });
    const [first] = legsOnSheet(mechanism, across);
    expect(Math.hypot(first.from[0] - first.to[0], first.from[1] - first.to[1])).toBeCloseTo(size, 9);
  });

  it('outlines the reach as wide as it is', () => {
    const numbers =
      reachPath(shell, viewBasis(STANDARD_ANGLES.top))
        .match(/-?[\d.]+/g)
        ?.map(Number) ?? [];
    const xs = numbers.filter((_, i) => i % 2 === 0);
    const places = Array.from(shell.positions).filter((_, i) => i % 3 === 0);
    const width = Math.max(...places) - Math.min(...places);
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - width)).toBeLessThan(0.03 * width);
  });

  it('stays within one ball however it is turned', () => {
    const { centre, radius } = surroundings([drawing]);
    for (const azimuth of [0, 1, 2, 3]) {
      const basis = viewBasis({ azimuth, elevation: 0.5 });
      const [cx, cy] = onSheet(basis, centre);
      for (const { from, to } of legsOnSheet(mechanism, basis)) {
        for (const [x, y] of [from, to]) expect(Math.hypot(x - cx, y - cy)).toBeLessThanOrEqual(radius + 1e-9);
      }
    }
  });
});

describe('outlines in the view of the platform', () => {
  const done = (document = DEMOS.roomy): CompareState['layouts'] => {
    const level = { kind: 'failed' as const, reason: 'x' };
    return new Map([[layoutKey(document), level]]);
  };

  it('are of all columns but the live one, and only when asked for', () => {
    const store = createCompareStore();
    store.setState({
      chosen: [{ source: 'live' }, { source: 'demo', title: 'Roomy', document: DEMOS.roomy }, { source: 'pinned' }],
      layouts: done(),
    });
    expect(comparedWords(store.getState(), DEMOS.steady, DEMOS.even)).toBeNull();
    store.setState({ overlaid: true });
    expect(comparedWords(store.getState(), DEMOS.steady, DEMOS.even)).toBe(
      'Outlines of reaches: b Roomy; c Wave table, evenly spaced',
    );
    expect(comparedShells(store.getState(), DEMOS.steady, DEMOS.even)).toEqual([]);
  });
});
