import { describe, expect, it } from 'vitest';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import type { Mechanism, PlateLayout } from '../../src/kinematics/mechanism.ts';
import { seededRandom } from '../../src/math/random.ts';
import { DEG, mechanismOf, points, randomGeneralLayout, randomPose, ring } from '../kinematics/designs.ts';

// Similar base and platform rings are singular at every pose: O. Ma and J. Angeles, IEEE ICRA 1991; A. Karger, J. Mech. Des. 125,
// 2003 (both from memory). A turned, mirrored or projectively related pair of rings fails as well.
const SEED = 1991;

const homeVerdict = (mechanism: Mechanism) =>
  assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism)).verdict;

/** Six joints on a circle at the given angles [deg]. */
const circle = (radius: number, angles_deg: readonly number[]): PlateLayout =>
  points(angles_deg.flatMap((angle) => [radius * Math.cos(angle * DEG), radius * Math.sin(angle * DEG), 0]));

const ANGLES = [3, 41, 100, 155, 236, 290];

/** A projective map of the plane that keeps the unit circle: x' = (x + k) / (1 + k x), y' = y sqrt(1 - k^2) / (1 + k x). */
const circleMap = (angle_deg: number, k: number): number => {
  const x = Math.cos(angle_deg * DEG);
  const y = Math.sin(angle_deg * DEG);
  return Math.atan2(y * Math.sqrt(1 - k * k), x + k) / DEG;
};

describe('layouts that are singular at every pose', () => {
  it.each([
    [60, 60],
    [40, 80],
    [20, 100],
    [90, 30],
    [0, 120.0 - 1e-13],
  ])('gaps %d / %d add up to 120 deg', (baseGap, platformGap) => {
    const verdict = homeVerdict(mechanismOf(ring(100, baseGap), ring(70, platformGap), 150));
    expect(verdict.word).toBe('singular at every pose');
    expect(verdict.reason).toContain('add up to 120 deg');
  });

  it.each([0.1, 0.5, 1, 2, 3])('whatever the ring ratio (%d)', (ratio) => {
    for (const height of [0.05, 0.5, 6]) {
      const verdict = homeVerdict(mechanismOf(ring(100, 60), ring(100 * ratio, 60), 100 * height));
      expect(verdict.word).toBe('singular at every pose');
    }
  });

  it('a turned copy', () => {
    const turned = mechanismOf(
      circle(100, ANGLES),
      circle(
        70,
        ANGLES.map((angle) => angle + 17),
      ),
      150,
    );
    expect(homeVerdict(turned)).toMatchObject({
      word: 'singular at every pose',
    });
    expect(homeVerdict(turned).reason).toContain('turned copy');
    expect(homeVerdict(mechanismOf(ring(100, 60), ring(70, 60, 10), 150)).reason).toContain('turned copy');
  });

  it('a scaled copy of free points', () => {
    expect(homeVerdict(mechanismOf(circle(100, ANGLES), circle(70, ANGLES), 150)).reason).toContain('scaled copy');
  });

  it('a mirrored copy', () => {
    const mirrored = mechanismOf(
      circle(100, ANGLES),
      circle(
        70,
        ANGLES.map((angle) => 31 - angle),
      ),
      150,
    );
    expect(homeVerdict(mirrored).word).toBe('singular at every pose');
    expect(homeVerdict(mirrored).reason).toContain('mirrored copy');
  });

  it.each([0.2, -0.35, 0.6])('a projective copy that is no similar one (k = %d)', (k) => {
    const image = mechanismOf(
      circle(100, ANGLES),
      circle(
        70,
        ANGLES.map((angle) => circleMap(angle, k)),
      ),
      150,
    );
    expect(homeVerdict(image).word).toBe('singular at every pose');
    expect(homeVerdict(image).reason).toContain('projective copy');
  });

  it('legs that are all parallel, with three free motions', () => {
    const verdict = homeVerdict(mechanismOf(ring(70, 60), ring(70, 60), 150));
    expect(verdict).toMatchObject({
      word: 'singular at every pose',
      freeMotions: 3,
    });
    expect(verdict.reason).toContain('parallel');
  });

  it('parallel legs on plates that are no copies on a conic are singular at home only', () => {
    // congruent plates give parallel legs at home; an uneven height pattern takes the joints out of one plane
    const uneven = Array.from({ length: 6 }, (_, leg) => [
      90 * Math.cos(ANGLES[leg] * DEG) + leg * 3,
      70 * Math.sin(ANGLES[leg] * DEG) - leg * leg,
      [0, 14, -5, 9, 22, -11][leg],
    ]).flat();
    const verdict = homeVerdict(mechanismOf(points(uneven), points(uneven), 150));
    expect(verdict.freeMotions).toBe(3);
    expect(verdict.word).toBe('singular at this pose');
  });
});

describe('layouts that are not', () => {
  it('59/60 is nearly singular and names the gap sum', () => {
    const verdict = homeVerdict(mechanismOf(ring(100, 59), ring(70, 60), 150));
    expect(verdict.word).toBe('nearly singular');
    expect(verdict.reason).toContain('119 deg');
  });

  it('20/20 is firm', () => {
    expect(homeVerdict(mechanismOf(ring(100, 20), ring(70, 20), 150)).word).toBe('firm');
  });

  it('the idealised octahedron (both gaps 0) is firm', () => {
    expect(homeVerdict(mechanismOf(ring(100, 0), ring(70, 0), 150)).word).toBe('firm');
  });

  it(`random general layouts are not called singular at every pose (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 200; n++) {
      const mechanism = randomGeneralLayout(random);
      const { verdict } = assessIndependence(
        mechanism,
        randomPose(random, 1.5, 0.2, 0.5),
        assessArchitecture(mechanism),
      );
      expect(verdict.word).not.toBe('singular at every pose');
    }
  });

  it('a millionth of a degree from 120 deg is nearly singular, not singular', () => {
    expect(homeVerdict(mechanismOf(ring(100, 60 - 1e-6), ring(70, 60), 150)).word).toBe('nearly singular');
  });
});

describe('hole choices on two circles of 72', () => {
  it('21 of the 441 gap pairs from 10 to 110 deg are singular at every pose (worked figure, computed outside)', () => {
    let singular = 0;
    for (let base = 10; base <= 110; base += 5) {
      for (let platform = 10; platform <= 110; platform += 5) {
        if (assessArchitecture(mechanismOf(ring(100, base), ring(70, platform), 150)).singularEverywhere) singular++;
      }
    }
    expect(singular).toBe(21);
  });
});
