import { type ComponentType, lazy, Suspense } from 'react';
import { firstView } from '../state/session/first-view.ts';

/**
 * A part of the page that the first view does without: its code comes once the platform is drawn, wanted or not, so that
 * it is there when it is wanted.
 */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  const arriving = firstView.then(load);
  // whoever shows the part is told why it did not come
  arriving.catch(() => undefined);
  const Part = lazy(async () => ({ default: await arriving }));
  return (props) => (
    <Suspense fallback={null}>
      <Part {...props} />
    </Suspense>
  );
}
