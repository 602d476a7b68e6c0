import type { Point } from '../joint-mounts.ts';

/** What a shape is for: a machine follows the first two, a person reads the others. */
export const LAYERS = ['cut', 'drill', 'engrave', 'notes'] as const;
export type Layer = (typeof LAYERS)[number];

/**
 * Kinds of line of ISO 128 (from memory: 01.2 wide continuous, 01.1 narrow continuous, 02.1 narrow dashed, 04.1 narrow
 * long-dashed dotted): what is seen, dimensions and hatching, what is hidden, centre lines and pitch circles.
 */
export type Line = 'seen' | 'narrow' | 'hidden' | 'centre';

/** Widths of the group 0.5 [mm]: wide 0.5, narrow 0.25. */
export const LINE_WIDTHS: Readonly<Record<Line, number>> = { seen: 0.5, narrow: 0.25, hidden: 0.25, centre: 0.25 };

/** Lengths of dash and gap [mm], in turn; none: continuous. */
export const LINE_DASHES: Readonly<Record<Line, readonly number[]>> = {
  seen: [],
  narrow: [],
  hidden: [3, 0.75],
  centre: [6, 0.75, 0.3, 0.75],
};

/** A shape of a drawing [mm], y up. */
export type Shape =
  | {
      readonly kind: 'circle';
      readonly layer: Layer;
      readonly line: Line;
      readonly centre: Point;
      readonly radius: number;
    }
  /** Corners; `closed` joins the last to the first, `filled` blackens the area. */
  | {
      readonly kind: 'path';
      readonly layer: Layer;
      readonly line: Line;
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly filled?: boolean;
    }
  /** One line of text; `at` is on its baseline. */
  | {
      readonly kind: 'text';
      readonly layer: Layer;
      readonly at: Point;
      readonly text: string;
      /** Nominal size: height of a capital letter is some 0.7 of it [mm]. */
      readonly size: number;
      readonly anchor: 'start' | 'middle' | 'end';
      /** Counter-clockwise turn [rad]. */
      readonly turn: number;
    };

export const circle = (layer: Layer, line: Line, centre: Point, radius: number): Shape => ({
  kind: 'circle',
  layer,
  line,
  centre,
  radius,
});

export const segment = (layer: Layer, line: Line, from: Point, to: Point): Shape => ({
  kind: 'path',
  layer,
  line,
  points: [from, to],
  closed: false,
});

export const outline = (layer: Layer, line: Line, points: readonly Point[]): Shape => ({
  kind: 'path',
  layer,
  line,
  points,
  closed: true,
});

export const filled = (layer: Layer, points: readonly Point[]): Shape => ({
  kind: 'path',
  layer,
  line: 'narrow',
  points,
  closed: true,
  filled: true,
});

export const text = (
  layer: Layer,
  at: Point,
  size: number,
  words: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
  turn = 0,
): Shape => ({ kind: 'text', layer, at, text: words, size, anchor, turn });

/** A shape moved by x, y. */
export function moved(shape: Shape, [dx, dy]: Point): Shape {
  const move = ([x, y]: Point): Point => [x + dx, y + dy];
  if (shape.kind === 'circle') return { ...shape, centre: move(shape.centre) };
  if (shape.kind === 'path') return { ...shape, points: shape.points.map(move) };
  return { ...shape, at: move(shape.at) };
}

/** A rectangle, its sides along x and y [mm]. */
export interface Box {
  readonly low: Point;
  readonly high: Point;
}

/** The rectangle around the lines of some shapes; texts do not count. */
export function boxOf(shapes: readonly Shape[]): Box {
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = ([x, y]: Point, radius: number) => {
    low[0] = Math.min(low[0], x - radius);
    low[1] = Math.min(low[1], y - radius);
    high[0] = Math.max(high[0], x + radius);
    high[1] = Math.max(high[1], y + radius);
  };
  for (const shape of shapes) {
    if (shape.kind === 'circle') take(shape.centre, shape.radius);
    else if (shape.kind === 'path') for (const point of shape.points) take(point, 0);
  }
  return { low: [low[0], low[1]], high: [high[0], high[1]] };
}
