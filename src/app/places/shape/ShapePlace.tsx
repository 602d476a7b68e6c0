import { useState } from 'react';
import { DesignPanels, LegTable, PosePanel } from '../../../panels/index.ts';
import { ErrorBoundary } from '../../ErrorBoundary.tsx';
import { Dock } from '../Dock.tsx';
import type { LayoutMode } from '../layout-mode.ts';
import type { PlaceProps } from '../place-spec.ts';
import { SheetTabs } from '../SheetTabs.tsx';
import {
  ComparePanel,
  CurvesPanel,
  HelpsPanel,
  JudgePanel,
  LengthsToPose,
  LooseMotionPanel,
  ProvePanel,
} from './later-panels.ts';
import styles from './shape-place.module.css';

/** What stands below the view where there is room for it, one at a time. */
const DOCK = [
  { id: 'legs', title: 'Legs', content: <LegTable /> },
  { id: 'curves', title: 'Curves', content: <CurvesPanel /> },
  { id: 'helps', title: 'What helps', content: <HelpsPanel /> },
] as const;

/** What the sheet beside or under the view can show when there is no room for everything. */
const SHEETS = [
  { id: 'design', title: 'Design', content: <DesignPanels /> },
  { id: 'pose', title: 'Pose', content: <PoseSheet /> },
  { id: 'judge', title: 'Judge', content: <JudgeSheet /> },
  ...DOCK,
  { id: 'compare', title: 'Compare', content: <ComparePanel /> },
] as const;

/** The place where one layout is shaped: rings, legs, joints and tool around the live view. */
export const ShapePlace = ({ mode }: PlaceProps) => (mode === 'wide' ? <Columns /> : <Sheet mode={mode} />);

function Columns() {
  const [shown, setShown] = useState('legs');
  return (
    <>
      <section id="design" tabIndex={-1} className={styles['design']} aria-label="Design">
        <ErrorBoundary part="The design panel">
          <DesignPanels />
        </ErrorBoundary>
      </section>
      <section className={styles['pose']} aria-label="Pose and comparison">
        <ErrorBoundary part="The pose panel">
          <PosePanel />
          <LengthsToPose />
          <LooseMotionPanel />
          <JudgePanel />
          <ProvePanel />
          <ComparePanel />
        </ErrorBoundary>
      </section>
      <Dock tabs={DOCK} shown={shown} onShow={setShown} />
    </>
  );
}

function PoseSheet() {
  return (
    <>
      <PosePanel />
      <LengthsToPose />
      <LooseMotionPanel />
    </>
  );
}

function JudgeSheet() {
  return (
    <>
      <JudgePanel />
      <ProvePanel />
    </>
  );
}

function Sheet({ mode }: { readonly mode: LayoutMode }) {
  const [shown, setShown] = useState('design');
  const legsBelow = mode === 'middle';
  return (
    <>
      <section id="design" tabIndex={-1} className={styles['sheet']} data-mode={mode} aria-label="Panels">
        <SheetTabs sheets={SHEETS.filter(({ id }) => !(legsBelow && id === 'legs'))} shown={shown} onShow={setShown} />
      </section>
      {legsBelow && (
        <section className={styles['legs']} aria-label="Legs">
          <ErrorBoundary part="The table of legs">
            <LegTable />
          </ErrorBoundary>
        </section>
      )}
    </>
  );
}
