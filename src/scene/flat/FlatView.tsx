import { useStore } from 'zustand';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import { poseFromAngles } from '../../kinematics/pose.ts';
import { pointedStore, sessionStore } from '../../state/stores.ts';
import type { ComparedShell } from '../model/compared-shells.ts';
import type { SceneView } from '../model/scene-view.ts';
import { poseWarnings } from '../model/warnings.ts';
import { LINES_PER_HEAVY } from '../shape/floor-grid.ts';
import { ComparedOutlines } from './ComparedOutlines.tsx';
import { FlatBodies } from './FlatBodies.tsx';
import { FlatLegs } from './FlatLegs.tsx';
import { FlatCones, FlatGhost, FlatWarnings, PlateLetters, ReachOutline, SheetAxes, ToolMark } from './FlatParts.tsx';
import styles from './flat.module.css';
import { openingPath, pinsPath, platePath, postsPath } from './flat-shapes.ts';
import { FLAT_TITLES, type FlatViewName, project } from './projection.ts';
import { gridPath, type Sheet } from './sheet.ts';

interface FlatViewProps {
  readonly view: FlatViewName;
  readonly scene: SceneView;
  readonly sheet: Sheet;
  /** Null: not to be drawn, or not known yet. */
  readonly reach: ReachSurface | null;
  readonly ghostReach: ReachSurface | null;
  readonly compared: readonly ComparedShell[];
  readonly stale: boolean;
}

/** One drawing, plan or elevation: what is nearer to whoever looks is drawn later. */
export function FlatView({ view, scene, sheet, reach, ghostReach, compared, stale }: FlatViewProps) {
  const showCones = useStore(sessionStore, (session) => session.showCones);
  const highlightedLeg = useStore(sessionStore, (session) => session.highlightedLeg);
  const pointed = useStore(pointedStore, ({ pose }) => pose);
  const { mechanism, drawnPose, ghost, loose } = scene;
  const { plates } = scene.parts;
  const { left, top, width, height, hair, step } = sheet;
  return (
    <svg
      className={styles['view']}
      viewBox={`${left} ${top} ${width} ${height}`}
      role="img"
      aria-label={FLAT_TITLES[view]}
    >
      <path className={styles['grid']} d={gridPath(sheet, step)} strokeWidth={0.5 * hair} />
      <path className={styles['grid']} d={gridPath(sheet, step * LINES_PER_HEAVY)} strokeWidth={hair} />
      <path
        className={styles['plate']}
        d={platePath(mechanism, 'base', drawnPose, view, plates.base)}
        strokeWidth={2.2 * hair}
      />
      <path
        className={styles['post']}
        d={postsPath(mechanism, 'base', drawnPose, view, plates.base)}
        strokeWidth={hair}
      />
      <FlatCones plate="base" view={view} scene={scene} all={showCones} hair={hair} />
      <FlatLegs
        view={view}
        mechanism={mechanism}
        barrelLength={scene.parts.clearance.barrelLength}
        drawn={scene.drawnLegs}
        judged={scene.legs}
        highlightedLeg={highlightedLeg}
        hair={hair}
      />
      <path
        className={styles['post']}
        d={postsPath(mechanism, 'platform', drawnPose, view, plates.platform)}
        strokeWidth={hair}
      />
      <FlatCones plate="platform" view={view} scene={scene} all={showCones} hair={hair} />
      <path
        className={styles['plate']}
        data-clear={view === 'plan' || undefined}
        d={platePath(mechanism, 'platform', drawnPose, view, plates.platform)}
        strokeWidth={1.2 * hair}
      />
      {(['base', 'platform'] as const).map((plate) => (
        <path
          key={plate}
          className={styles['opening']}
          d={openingPath(mechanism, plate, drawnPose, view, plates[plate])}
          strokeWidth={hair}
        />
      ))}
      {(['base', 'platform'] as const).map((plate) => (
        <path key={plate} className={styles['post']} d={pinsPath(scene, plate, view)} strokeWidth={hair} />
      ))}
      <FlatBodies scene={scene} view={view} hair={hair} />
      {reach && <ReachOutline shell={reach} view={view} kind={stale ? 'stale' : 'live'} hair={hair} />}
      {ghostReach && <ReachOutline shell={ghostReach} view={view} kind="ghost" hair={hair} />}
      <ComparedOutlines compared={compared} view={view} hair={hair} />
      {ghost && <FlatGhost mechanism={ghost.mechanism} pose={ghost.pose} view={view} hair={hair} withBase />}
      {loose?.ends.map((end, i) => (
        <FlatGhost key={END_NAMES[i]} mechanism={mechanism} pose={end} view={view} hair={hair} withBase={false} />
      ))}
      {pointed && (
        <FlatGhost mechanism={mechanism} pose={poseFromAngles(pointed)} view={view} hair={hair} withBase={false} />
      )}
      <ToolMark point={project(view, drawnPose.p_BoTo_B)} hair={hair} />
      <PlateLetters scene={scene} view={view} hair={hair} sheet={sheet} />
      <FlatWarnings warnings={poseWarnings(scene)} view={view} hair={hair} sheet={sheet} />
      <SheetAxes sheet={sheet} view={view} />
    </svg>
  );
}

const END_NAMES = ['one end', 'other end'];
