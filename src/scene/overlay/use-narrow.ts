import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** Whether an element is narrower than a width [CSS px]; set the ref on it. */
export function useNarrow(width: number): readonly [RefObject<HTMLDivElement | null>, boolean] {
  const element = useRef<HTMLDivElement>(null);
  const [narrow, setNarrow] = useState(false);
  useLayoutEffect(() => {
    const { current } = element;
    if (!current) return;
    const measure = () => setNarrow(current.clientWidth < width);
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(current);
    return () => observer.disconnect();
  }, [width]);
  return [element, narrow];
}
