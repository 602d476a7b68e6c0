import { onlyBalls } from '../../document/units.ts';
import { useDesign } from '../design-binding.ts';
import styles from './place.module.css';

/** Says how joints other than balls count where many layouts are measured; nothing for balls, whose cones are their limits. */
export function JointsHint() {
  const exact = useDesign(onlyBalls);
  if (exact) return null;
  return (
    <p className={styles['hint']}>
      Reach is at least what is found here: rod ends and universal joints count as the widest cones within their limits.
    </p>
  );
}
