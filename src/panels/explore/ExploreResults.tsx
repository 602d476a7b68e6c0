import { useExplore } from './desk-context.ts';
import { HeatMap } from './HeatMap.tsx';
import { HolesResults } from './HolesResults.tsx';
import { OptimiserResults } from './OptimiserResults.tsx';
import styles from './place.module.css';
import { Ranges } from './Ranges.tsx';
import { Scatter } from './Scatter.tsx';

/** What has come out: the linked pictures of a sweep, the list of holes, or the way of the optimiser. */
export function ExploreResults() {
  const task = useExplore((state) => state.task);
  const swept = useExplore((state) => state.run !== null);
  if (task === 'holes') return <HolesResults />;
  if (task === 'optimiser') return <OptimiserResults />;
  if (!swept) {
    return (
      <p className={styles['empty']}>
        Start a sweep, and its layouts will stand here: a map of any figure over two dimensions, the front of layouts
        that nothing beats, and the ranges that are left.
      </p>
    );
  }
  return (
    <div className={styles['trio']}>
      <HeatMap />
      <Scatter />
      <Ranges />
    </div>
  );
}
