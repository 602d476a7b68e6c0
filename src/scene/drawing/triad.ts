import type { Vec3 } from '../../math/vec3.ts';
import type { InkLines, Pen } from './ink-lines.ts';

export const AXIS_LETTERS = ['X', 'Y', 'Z'] as const;

/** Arrow head as shares of the axis. */
const HEAD_LENGTH = 0.16;
const HEAD_WIDTH = 0.05;

/** Draws three arrows of a frame along its own axes. */
export function drawTriad(lines: InkLines, origin: Vec3, size: number, pen: Pen): void {
  for (let k = 0; k < 3; k++) {
    const tip = axisPoint(origin, k, size);
    lines.line(origin, tip, pen);
    const neck = axisPoint(origin, k, size * (1 - HEAD_LENGTH));
    for (let side = 1; side < 3; side++) {
      const across = (k + side) % 3;
      lines.line(axisPoint(neck, across, HEAD_WIDTH * size), tip, pen);
      lines.line(axisPoint(neck, across, -HEAD_WIDTH * size), tip, pen);
    }
  }
}

/** The point `distance` along axis k from a point. */
export const axisPoint = (from: Vec3, k: number, distance: number): Vec3 => [
  from[0] + (k === 0 ? distance : 0),
  from[1] + (k === 1 ? distance : 0),
  from[2] + (k === 2 ? distance : 0),
];
