import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** Width and height of an element [CSS px], kept right while it is on screen. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

export function useSize<Element extends HTMLElement>(): readonly [RefObject<Element | null>, Size] {
  const ref = useRef<Element>(null);
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry.contentRect;
      setSize({ width: Math.floor(width), height: Math.floor(height) });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
