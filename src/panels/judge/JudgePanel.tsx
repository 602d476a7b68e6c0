import { AccuracyGroup } from './AccuracyGroup.tsx';
import { ClearanceGroup } from './ClearanceGroup.tsx';
import { FloorsGroup } from './FloorsGroup.tsx';
import { ForcesGroup } from './ForcesGroup.tsx';
import styles from './judge.module.css';
import { StiffnessGroup } from './StiffnessGroup.tsx';

/** The present pose in millimetres and newtons: how accurate, how loaded, how stiff, how close. */
export const JudgePanel = () => (
  <div className={styles['panel']}>
    <AccuracyGroup />
    <ForcesGroup />
    <StiffnessGroup />
    <ClearanceGroup />
    <FloorsGroup />
  </div>
);
