import { svd } from '../math/svd.ts';
import { at, cross, dot, length, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import { type JointCentres, LEG_COUNT } from './layout.ts';

/** How the six joints of one plate repeat those of the other. */
export type CopyKind =
  /** Scaled only. */
  | 'scaled'
  /** Scaled and turned in its plane. */
  | 'turned'
  /** Scaled and mirrored. */
  | 'mirrored'
  /** A projective image of the other: straight lines stay straight. */
  | 'projective';

/**
 * Largest misfit, relative to the plates' size, at which one plate still counts as an image of the other.
 * Coordinates given to a micrometre on a 100 mm ring are off by 1e-8; rounding of exact angles by 1e-15.
 */
export const COPY_TOLERANCE = 1e-7;

/**
 * Tells whether the platform joints are a projective image of the base joints, leg by leg, and of which kind.
 * With all joints of each plate in one plane and on a conic (a circle is one) such a layout is singular at every pose;
 * the rank test decides, this only explains. Null when either plate is not flat or there is no such image.
 */
export function plateCopy({ base, platform }: JointCentres): CopyKind | null {
  const from = planeCoordinates(base);
  const to = planeCoordinates(platform);
  if (!from || !to) return null;
  const H = fitHomography(from, to);
  return H && classify(H);
}

/** Coordinates in the best plane, centred, mean distance 1 (12 numbers); null when the six points are not flat. */
function planeCoordinates(points: Float64Array): Float64Array | null {
  const centre: Vec3 = [0, 1, 2].reduce<Vec3>(
    (sum, axis) => {
      const mean = [0, 1, 2, 3, 4, 5].reduce((total, leg) => total + points[3 * leg + axis], 0) / LEG_COUNT;
      return [axis === 0 ? mean : sum[0], axis === 1 ? mean : sum[1], axis === 2 ? mean : sum[2]];
    },
    [0, 0, 0],
  );
  const arms = Array.from({ length: LEG_COUNT }, (_, leg) => subtract(at(points, leg), centre));
  const size = arms.reduce((sum, arm) => sum + length(arm), 0) / LEG_COUNT;
  const normal = planeNormal(arms);
  if (size === 0 || arms.some((arm) => Math.abs(dot(arm, normal)) > COPY_TOLERANCE * size)) return null;
  const across = unit(Math.abs(normal[0]) < 0.9 ? cross(normal, [1, 0, 0]) : cross(normal, [0, 1, 0]));
  const along = cross(across, normal);
  const flat = new Float64Array(2 * LEG_COUNT);
  arms.forEach((arm, leg) => {
    flat[2 * leg] = dot(arm, along) / size;
    flat[2 * leg + 1] = dot(arm, across) / size;
  });
  return flat;
}

/** Upward normal of the plane through the arms: the direction of least extent. */
function planeNormal(arms: readonly Vec3[]): Vec3 {
  const moments = new Float64Array(9);
  for (const arm of arms) {
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 3; column++) moments[3 * row + column] += arm[row] * arm[column];
    }
  }
  const { V } = svd(moments, 3);
  const normal: Vec3 = [V[2], V[5], V[8]];
  return normal[2] < 0 ? scale(normal, -1) : normal;
}

/**
 * The 3x3 map (row-major) that takes `from` to `to` in homogeneous plane coordinates, or null when none fits.
 * Direct linear transformation: each pair of points gives two rows of a homogeneous system; padded to a square so that one
 * singular value routine serves.
 */
function fitHomography(from: Float64Array, to: Float64Array): Float64Array | null {
  const n = 2 * LEG_COUNT;
  const rows = new Float64Array(n * n);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const x = from[2 * leg];
    const y = from[2 * leg + 1];
    const u = to[2 * leg];
    const v = to[2 * leg + 1];
    rows.set([x, y, 1, 0, 0, 0, -u * x, -u * y, -u], 2 * leg * n);
    rows.set([0, 0, 0, x, y, 1, -v * x, -v * y, -v], (2 * leg + 1) * n);
  }
  const { values, V } = svd(rows, n);
  // columns 9 to 11 are padding and give three zero values with unit vectors of their own; the real ninth value is next
  const best = smallestRealVector(values, V, n);
  if (!best || best.value > COPY_TOLERANCE * values[0]) return null;
  const H = best.vector;
  const size = Math.hypot(...H);
  return Math.abs(determinant3(H)) > DEGENERATE_MAP * size ** 3 ? H.map((entry) => entry / size) : null;
}

/** A map that squeezes the plane to a line (three joints on one spot do this) is no copy. */
const DEGENERATE_MAP = 1e-6;

function smallestRealVector(
  values: Float64Array,
  V: Float64Array,
  n: number,
): { value: number; vector: Float64Array } | null {
  for (let column = n - 1; column >= 0; column--) {
    const vector = Float64Array.from({ length: 9 }, (_, row) => V[row * n + column]);
    if (Math.hypot(...vector) > 0.5) return { value: values[column], vector };
  }
  return null;
}

const determinant3 = (H: Float64Array): number =>
  H[0] * (H[4] * H[8] - H[5] * H[7]) - H[1] * (H[3] * H[8] - H[5] * H[6]) + H[2] * (H[3] * H[7] - H[4] * H[6]);

function classify(H: Float64Array): CopyKind {
  const scaleOf = Math.hypot(H[0], H[1], H[3], H[4]);
  const near = (difference: number) => Math.abs(difference) < CLASS_TOLERANCE * scaleOf;
  if (!near(H[6]) || !near(H[7])) return 'projective';
  if (near(H[0] - H[4]) && near(H[1] + H[3])) return near(H[1]) && H[0] * H[8] > 0 ? 'scaled' : 'turned';
  return near(H[0] + H[4]) && near(H[1] - H[3]) ? 'mirrored' : 'projective';
}

/** Looser than the fit itself, since the map's entries carry the fit's error magnified by its condition. */
const CLASS_TOLERANCE = 1e-5;
