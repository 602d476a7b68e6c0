import type { Vec3 } from '../../math/vec3.ts';
import type { Point2 } from '../shape/convex-hull.ts';

/** The two drawings that stand in for the 3D view. */
export const FLAT_VIEWS = ['plan', 'elevation'] as const;

export type FlatViewName = (typeof FLAT_VIEWS)[number];

/** Title, and the letters of the directions that run to the right and upward. */
export const FLAT_TITLES: Readonly<Record<FlatViewName, string>> = {
  plan: 'Plan, from above',
  elevation: 'Elevation, from the front',
};

export const FLAT_AXES: Readonly<Record<FlatViewName, readonly [string, string]>> = {
  plan: ['X', 'Y'],
  elevation: ['X', 'Z'],
};

/** Parts of a 3D point that a drawing shows: x to the right, and y or z upward. SVG counts downward, so the second is negative. */
const UPWARD: Readonly<Record<FlatViewName, 1 | 2>> = { plan: 1, elevation: 2 };

/** Place of a 3D point on the sheet [mm, y down]. */
export const project = (view: FlatViewName, point: Vec3): Point2 => [point[0], -point[UPWARD[view]]];

/** Which of the three coordinates a drawing shows upward. */
export const upwardAxis = (view: FlatViewName): 1 | 2 => UPWARD[view];

/** An SVG path through points. */
export const pathThrough = (points: readonly Point2[], closed = true): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${round(x)} ${round(y)}`).join('') + (closed ? 'Z' : '');

/** A hundredth of a millimetre is finer than any line of the drawing. */
const round = (value: number): number => Math.round(value * 100) / 100;

/** A straight bar seen from the side: its four corners. Seen end on it has no direction, and the round joint shows instead. */
export function barPath(from: Point2, to: Point2, width: number): string {
  const span = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (span === 0) return '';
  const x = ((to[1] - from[1]) * width) / (2 * span);
  const y = ((from[0] - to[0]) * width) / (2 * span);
  return pathThrough([
    [from[0] + x, from[1] + y],
    [to[0] + x, to[1] + y],
    [to[0] - x, to[1] - y],
    [from[0] - x, from[1] - y],
  ]);
}
