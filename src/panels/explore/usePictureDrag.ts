import { type PointerEvent, useRef, useState } from 'react';

/** A point inside a picture's plot [px]. */
export type Point = readonly [x: number, y: number];

interface DragProps {
  /** Left and upper edge of the plot inside the element [px]. */
  readonly origin: Point;
  readonly onHover: (at: Point) => void;
  readonly onLeave: () => void;
  readonly onClick: (at: Point) => void;
  /** A rectangle was drawn from one corner to the other. */
  readonly onBrush: (from: Point, to: Point) => void;
}

/** A pointer that moved less than this between down and up meant a click [px]. */
const CLICK_SLACK = 5;

/** Tells hovering, clicking and drawing a rectangle apart. `box` is the rectangle being drawn. */
export function usePictureDrag({ origin, onHover, onLeave, onClick, onBrush }: DragProps) {
  const start = useRef<Point | null>(null);
  const [box, setBox] = useState<readonly [Point, Point] | null>(null);
  const place = (event: PointerEvent<Element>): Point => {
    const bounds = event.currentTarget.getBoundingClientRect();
    return [event.clientX - bounds.left - origin[0], event.clientY - bounds.top - origin[1]];
  };
  const far = (at: Point) =>
    start.current !== null && Math.hypot(at[0] - start.current[0], at[1] - start.current[1]) > CLICK_SLACK;
  return {
    box,
    handlers: {
      onPointerDown: (event: PointerEvent<Element>) => {
        if (event.button !== 0) return;
        start.current = place(event);
        event.currentTarget.setPointerCapture(event.pointerId);
      },
      onPointerMove: (event: PointerEvent<Element>) => {
        const at = place(event);
        if (start.current === null) onHover(at);
        else if (box !== null || far(at)) setBox([start.current, at]);
      },
      onPointerUp: (event: PointerEvent<Element>) => {
        const at = place(event);
        if (start.current !== null && box !== null) onBrush(start.current, at);
        else if (start.current !== null) onClick(at);
        start.current = null;
        setBox(null);
      },
      onPointerCancel: () => {
        start.current = null;
        setBox(null);
      },
      onPointerLeave: onLeave,
    },
  };
}
