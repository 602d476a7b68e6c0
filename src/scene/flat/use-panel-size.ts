import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Size of an element [CSS px]; null until it is known. Set the ref on it. */
export function usePanelSize(): readonly [RefObject<HTMLDivElement | null>, Size | null] {
  const element = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const { current } = element;
    if (!current) return;
    const measure = () => setSize({ width: current.clientWidth, height: current.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(current);
    return () => observer.disconnect();
  }, []);
  return [element, size];
}
