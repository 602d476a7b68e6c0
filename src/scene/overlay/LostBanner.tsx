import styles from './overlay.module.css';

/** Shown between the loss of the drawing context and its return. */
export function LostBanner() {
  return (
    <p className={styles['banner']} role="status">
      The 3D drawing was lost and is being rebuilt. Plan and elevation stand in for it; all numbers hold.
    </p>
  );
}
