import { describe, expect, it } from 'vitest';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { innerCones } from '../../src/kinematics/inner-cones.ts';
import type { JointKind } from '../../src/kinematics/joint-kinds.ts';
import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import { jointMargin } from '../../src/kinematics/joint-shapes.ts';
import { at, cross, unit, type Vec3 } from '../../src/math/vec3.ts';
import { withKinds } from './designs.ts';

const mechanism = mechanismFromDocument(emptyDesign());
const deg = Math.PI / 180;

/** Unit vector at `tilt` from an axis, on the side given by `around`. */
function leaning(axis: Vec3, tilt: number, around: number): Vec3 {
  const e = unit(cross(axis, Math.abs(axis[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0]));
  const f = cross(axis, e);
  const part = (n: 0 | 1 | 2) =>
    Math.cos(tilt) * axis[n] + Math.sin(tilt) * (Math.cos(around) * e[n] + Math.sin(around) * f[n]);
  return [part(0), part(1), part(2)];
}

const kinds: readonly (readonly [string, JointKind])[] = [
  ['balls', { kind: 'ball' }],
  ['rod ends across the leg', { kind: 'rodEnd', bolt: { kind: 'acrossLeg' } }],
  ['rod ends along the circle', { kind: 'rodEnd', bolt: { kind: 'tangential' } }],
  ['universal joints', { kind: 'universal', first: { kind: 'radial' }, secondLimit: 18 * deg }],
];

describe.each(kinds)('the cone within %s', (_, kind) => {
  const own = withKinds(mechanism, kind, kind);
  const shapes = jointShapes(own);
  const cones = innerCones(own);

  it('lies in the true limits of every joint, all round, and touches one of them', () => {
    let least = Number.POSITIVE_INFINITY;
    for (let leg = 0; leg < 6; leg++)
      for (let step = 0; step < 720; step++) {
        const d = leaning(at(own.baseAxes_B, leg), cones.base, step * 0.5 * deg);
        least = Math.min(least, jointMargin(shapes.base[leg], d));
      }
    expect(least).toBeGreaterThan(-1e-9);
    // half a degree between the directions tried
    expect(least).toBeLessThan(1e-4);
  });
});
