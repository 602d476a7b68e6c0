import { seededRandom, uniform } from '../../math/random.ts';
import { svd } from '../../math/svd.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { type JointCentres, LEG_COUNT } from '../layout.ts';
import { FREEDOMS, LegEquations } from './leg-equations.ts';

/** A layout and six lengths moved to the plates' centroids and divided by `unit`, so that the largest of all sizes is 1. */
export interface NormalLayout {
  readonly centres: JointCentres;
  readonly lengths: Float64Array;
  /** The caller's length that became 1. */
  readonly unit: number;
  readonly baseCentroid: Vec3;
  readonly platformCentroid: Vec3;
}

/** The layout must have a finite, non-zero extent or legs of some length. */
export function normalLayout(centres: JointCentres, lengths: ArrayLike<number>): NormalLayout {
  const baseCentroid = centroid(centres.base);
  const platformCentroid = centroid(centres.platform);
  const base = centres.base.map((value, index) => value - baseCentroid[index % 3]);
  const platform = centres.platform.map((value, index) => value - platformCentroid[index % 3]);
  let unit = Math.max(farthest(base), farthest(platform));
  for (let leg = 0; leg < LEG_COUNT; leg++) unit = Math.max(unit, lengths[leg]);
  return {
    centres: { base: base.map((value) => value / unit), platform: platform.map((value) => value / unit) },
    lengths: Float64Array.from(lengths, (value) => value / unit),
    unit,
    baseCentroid,
    platformCentroid,
  };
}

/** Largest distance of a joint from its plate's centroid: what "the layout's size" means for tolerances. */
export function layoutSize(centres: JointCentres): number {
  let size = 0;
  for (const points of [centres.base, centres.platform]) {
    const middle = centroid(points);
    size = Math.max(size, farthest(points.map((value, index) => value - middle[index % 3])));
  }
  return size;
}

/**
 * A layout whose legs are dependent at every pose has singular values of rounding size (1e-16) at each; one that is
 * merely near it (59/60 deg gaps) keeps 1e-3 at a generic pose. Anything between would do.
 */
const DEPENDENT = 1e-11;
const GENERIC_POSES = 5;

/** True when the legs are linearly dependent at every pose: lengths then fix no pose. Found by rank at generic poses. */
export function singularEverywhere(layout: NormalLayout): boolean {
  const random = seededRandom(71);
  const equations = new LegEquations(layout.centres, [0, 0, 0]);
  const size = layoutSize(layout.centres);
  for (let i = 0; i < GENERIC_POSES; i++) {
    const position = [0, 1, 2].map(() => uniform(random, -2, 2) * size);
    equations.place(
      position,
      [0, 1, 2, 3].map(() => uniform(random, -1, 1)),
    );
    equations.evaluate();
    const scaled = equations.J.map((entry, index) => (index % FREEDOMS < 3 ? entry : entry / size));
    const { values } = svd(scaled, FREEDOMS);
    if (!(values[FREEDOMS - 1] <= DEPENDENT * values[0])) return false;
  }
  return true;
}

/** p_BoPo and the tool point of a pose of the normal layout, in the caller's frames and unit. */
export function toolPosition(layout: NormalLayout, position: ArrayLike<number>, R: Float64Array, tool: Vec3): Vec3 {
  const { unit, baseCentroid, platformCentroid } = layout;
  const x = tool[0] - platformCentroid[0];
  const y = tool[1] - platformCentroid[1];
  const z = tool[2] - platformCentroid[2];
  return [
    unit * position[0] + baseCentroid[0] + R[0] * x + R[1] * y + R[2] * z,
    unit * position[1] + baseCentroid[1] + R[3] * x + R[4] * y + R[5] * z,
    unit * position[2] + baseCentroid[2] + R[6] * x + R[7] * y + R[8] * z,
  ];
}

function centroid(points: Float64Array): Vec3 {
  const sum = [0, 0, 0];
  for (let i = 0; i < points.length; i++) sum[i % 3] += points[i] / LEG_COUNT;
  return [sum[0], sum[1], sum[2]];
}

function farthest(points: Float64Array): number {
  let size = 0;
  for (let i = 0; i < points.length; i += 3) size = Math.max(size, Math.hypot(points[i], points[i + 1], points[i + 2]));
  return size;
}
