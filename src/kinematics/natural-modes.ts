import { rotate } from '../math/rotation.ts';
import { svd } from '../math/svd.ts';
import { cross, dot, subtract, type Vec3 } from '../math/vec3.ts';
import { NO_INERTIA, principalInertia, wholeInertia } from './inertia.ts';
import { LEG_COUNT } from './layout.ts';
import { centreArm, type Payload } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** How the payload swings on the legs' springs. */
export interface NaturalModes {
  /** [Hz], lowest first: as many as the payload has directions with inertia. */
  readonly frequencies: readonly number[];
  /** Why there are fewer than six; null where there are six. */
  readonly fewer: string | null;
}

/** 1 N/mm over 1 kg is 1000 per second squared: newtons are kg m/s^2, and lengths here are millimetres. */
const PER_SECOND_SQUARED = 1000;

/**
 * Frequencies of `K y = w^2 M y` with M the payload's mass matrix; legs and joints are massless.
 *
 * With the centre of mass as the reference point and the principal axes as directions M is diagonal, and
 * `G = diag(k)^1/2 J` in those coordinates has `K = G^T G`. Directions without inertia follow the others so that the least energy is
 * stored: what the columns of G with inertia have in common with those without is taken out of them. The frequencies are
 * the singular values of the rest, each column divided by the root of its inertia. K itself, whose condition is the square of G's,
 * is never formed, so near a singular pose the lowest frequency still has its relative error below condition times rounding.
 * @param J rows `[u_i, (R b_i) x u_i]`, flat 6x6
 * @param springs six [N/mm]
 */
export function naturalModes(
  mechanism: Mechanism,
  pose: Pose,
  J: Float64Array,
  springs: Float64Array,
  payload: Payload,
): NaturalModes {
  const { moments, axes } = principalInertia(payload.inertia ? wholeInertia(payload.inertia) : NO_INERTIA);
  const inertias = [payload.mass, payload.mass, payload.mass, ...moments];
  const directions = [0, 1, 2].map((k) => rotate(pose.R_BP, [axes[k], axes[3 + k], axes[6 + k]]));
  const columns = springColumns(J, springs, centreArm(mechanism, pose, payload), directions);
  const massless: number[][] = [];
  const massive: number[][] = [];
  for (const [n, inertia] of inertias.entries()) {
    if (inertia > 0) massive.push(columns[n].map((entry) => entry / Math.sqrt(inertia)));
    else massless.push(withoutParts(columns[n], massless, true));
  }
  const matrix = new Float64Array(36);
  for (const [n, column] of massive.entries())
    withoutParts(column, massless, false).forEach((entry, leg) => {
      matrix[6 * leg + n] = entry;
    });
  const { values } = svd(matrix, 6);
  const frequencies = Array.from(values.subarray(0, massive.length))
    .map((value) => (Math.sqrt(PER_SECOND_SQUARED) * value) / (2 * Math.PI))
    .reverse();
  return { frequencies, fewer: fewerWords(payload.mass, moments) };
}

function fewerWords(mass: number, moments: Vec3): string | null {
  const without = moments.filter((moment) => !(moment > 0)).length;
  if (mass === 0 && without === 3) return 'A payload without mass has no natural frequency.';
  if (without === 3)
    return 'Three frequencies only: a point mass has no inertia to turn. Give the payload a shape or an inertia.';
  if (without > 0)
    return `${6 - without} frequencies only: the payload has no inertia about ${without === 1 ? 'one axis' : 'two axes'}.`;
  return null;
}

/** Columns of diag(k)^1/2 J for shifts of the centre of mass and turns about three directions through it, base axes. */
function springColumns(
  J: Float64Array,
  springs: Float64Array,
  centre: Vec3,
  directions: readonly Vec3[],
): readonly number[][] {
  const columns: number[][] = Array.from({ length: 6 }, () => []);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const root = Math.sqrt(springs[leg]);
    const u: Vec3 = [J[6 * leg], J[6 * leg + 1], J[6 * leg + 2]];
    const about: Vec3 = [J[6 * leg + 3], J[6 * leg + 4], J[6 * leg + 5]];
    // (R b - c) x u: moments about the centre of mass instead of the tool point
    const turn = subtract(about, cross(centre, u));
    u.forEach((entry, axis) => columns[axis].push(root * entry));
    directions.forEach((direction, k) => columns[3 + k].push(root * dot(direction, turn)));
  }
  return columns;
}

/** A column less its parts along orthonormal ones (Gram and Schmidt, twice is enough), of length 1 where asked. */
function withoutParts(
  column: readonly number[],
  orthonormal: readonly (readonly number[])[],
  toUnit: boolean,
): number[] {
  const rest = [...column];
  for (let pass = 0; pass < 2; pass++)
    for (const other of orthonormal) {
      const along = rest.reduce((sum, entry, n) => sum + entry * other[n], 0);
      for (let n = 0; n < rest.length; n++) rest[n] -= along * other[n];
    }
  if (!toUnit) return rest;
  const size = Math.hypot(...rest);
  return rest.map((entry) => (size > 0 ? entry / size : 0));
}
