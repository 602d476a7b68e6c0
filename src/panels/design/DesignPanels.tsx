import { memo } from 'react';
import styles from './design.module.css';
import { JointsGroup } from './JointsGroup.tsx';
import { LegsGroup } from './LegsGroup.tsx';
import { PlateGroup } from './PlateGroup.tsx';
import { HomeGroup, LengthGroup, ToolGroup } from './PoseGroups.tsx';

/** Every number of the design, by groups; the column that holds it scrolls. */
export const DesignPanels = memo(function DesignPanels() {
  return (
    <div className={styles['panels']}>
      <PlateGroup plate="base" />
      <PlateGroup plate="platform" />
      <LegsGroup />
      <JointsGroup />
      <HomeGroup />
      <ToolGroup />
      <LengthGroup />
    </div>
  );
});
