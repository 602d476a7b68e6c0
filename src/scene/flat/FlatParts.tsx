import { useMemo } from 'react';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { at } from '../../math/vec3.ts';
import type { SceneView } from '../model/scene-view.ts';
import type { Warning } from '../model/warnings.ts';
import type { Point2 } from '../shape/convex-hull.ts';
import { LINES_PER_HEAVY } from '../shape/floor-grid.ts';
import { plateShape } from '../shape/plate-shape.ts';
import styles from './flat.module.css';
import { limitPath, placePlate, platePath } from './flat-shapes.ts';
import { FLAT_AXES, type FlatViewName, pathThrough, project } from './projection.ts';
import type { Sheet } from './sheet.ts';
import { silhouette } from './silhouette.ts';

/** What every part needs: the view, and the width of a CSS pixel on the sheet [mm]. */
interface PartProps {
  readonly view: FlatViewName;
  readonly hair: number;
}

const LEGS = Array.from({ length: LEG_COUNT }, (_, leg) => leg);

interface ConesProps extends PartProps {
  readonly plate: PlateName;
  readonly scene: SceneView;
  /** All six; otherwise only those whose limit is broken. */
  readonly all: boolean;
}

/** The limits of a plate's joints as their shadows. */
export function FlatCones({ plate, view, scene, all, hair }: ConesProps) {
  const limit = plate === 'base' ? 'baseJoint' : 'platformJoint';
  return LEGS.map((leg) => {
    const broken = scene.legs[leg].violations.includes(limit);
    if (!all && !broken) return null;
    return (
      <path
        key={leg}
        className={styles['cone']}
        data-broken={broken || undefined}
        d={limitPath(scene, plate, leg, view)}
        strokeWidth={(broken ? 2.2 : 0.8) * hair}
      />
    );
  });
}

interface ReachProps extends PartProps {
  readonly shell: ReachSurface;
  readonly kind: 'live' | 'stale' | 'ghost';
}

/** The outline of the reach's shadow. */
export function ReachOutline({ shell, view, kind, hair }: ReachProps) {
  const path = useMemo(
    () =>
      silhouette(shell, view)
        .map((ring) => pathThrough(ring))
        .join(''),
    [shell, view],
  );
  return (
    <path
      className={styles['reach']}
      data-kind={kind}
      d={path}
      strokeWidth={1.4 * hair}
      strokeDasharray={kind === 'ghost' ? `${5 * hair} ${4 * hair}` : undefined}
    />
  );
}

interface GhostProps extends PartProps {
  readonly mechanism: Mechanism;
  readonly pose: Pose;
  readonly withBase: boolean;
}

/** A platform in dashed lines: the pinned design, or an end of the loosest motion. */
export function FlatGhost({ mechanism, pose, view, hair, withBase }: GhostProps) {
  const placed = placePlate(mechanism, 'platform', pose);
  const legs = LEGS.map((leg) =>
    pathThrough(
      [project(view, at(mechanism.centres.base, leg)), project(view, placed(at(mechanism.centres.platform, leg)))],
      false,
    ),
  );
  const plates = [
    platePath(mechanism, 'platform', pose, view, null),
    withBase ? platePath(mechanism, 'base', pose, view, null) : '',
  ];
  return (
    <path
      className={styles['ghost']}
      d={[...legs, ...plates].join('')}
      strokeWidth={1.1 * hair}
      strokeDasharray={`${5 * hair} ${4 * hair}`}
    />
  );
}

/** A cross and a ring at the tool point. */
export function ToolMark({ point: [x, y], hair }: { readonly point: Point2; readonly hair: number }) {
  return (
    <g className={styles['tool']} transform={`translate(${x} ${y}) scale(${hair})`}>
      <circle r="5" />
      <path d="M-9 0 H9 M0 -9 V9" />
    </g>
  );
}

/** A at the base, B at the platform, to the right of their edges. */
export function PlateLetters({
  scene,
  view,
  hair,
  sheet,
}: PartProps & { readonly scene: SceneView; readonly sheet: Sheet }) {
  const rightmost = sheet.left + sheet.width - 24 * hair;
  const { mechanism, parts, drawnPose } = scene;
  return (['base', 'platform'] as const).map((plate) => {
    const { radius, outerFace } = plateShape(mechanism, plate, parts.plates[plate]);
    const placed = placePlate(mechanism, plate, drawnPose);
    const side = radius * Math.SQRT1_2;
    const [x, y] = project(view, placed(view === 'plan' ? [side, -side, outerFace] : [radius, 0, outerFace]));
    return (
      <g
        key={plate}
        className={styles['letter']}
        transform={`translate(${Math.min(x, rightmost)} ${y}) scale(${hair}) translate(14 0)`}
      >
        <rect x="-9" y="-9" width="18" height="18" />
        <text>{plate === 'base' ? 'A' : 'B'}</text>
      </g>
    );
  });
}

interface WarningProps extends PartProps {
  readonly warnings: readonly Warning[];
  readonly sheet: Sheet;
}

/** Below this width of a sheet a warning only names its leg [CSS px]. */
const WORDY_WIDTH = 320;

/** Rows of a warning's text [CSS px]. */
const ROW = 16;

/** Broken limits and marked distances where they are: a triangle for a joint, a diamond for others, in the elevation words beside it. */
export function FlatWarnings({ warnings, view, hair, sheet }: WarningProps) {
  const middle = sheet.left + sheet.width / 2;
  const wordy = sheet.width / hair >= WORDY_WIDTH;
  const rows = { left: Number.NEGATIVE_INFINITY, right: Number.NEGATIVE_INFINITY };
  const placed = warnings.map((warning) => ({ warning, at: project(view, warning.anchor) }));
  placed.sort((a, b) => a.at[1] - b.at[1]);
  return placed.map(({ warning, at: [x, y] }) => {
    const side = x > middle ? 'left' : 'right';
    // in pixels from the mark, pushed down below the text before it
    const row = Math.max(0, rows[side] + ROW - y / hair);
    rows[side] = y / hair + row;
    const joint = warning.limit === 'baseJoint' || warning.limit === 'platformJoint';
    return (
      <g
        key={`${warning.leg} ${warning.limit}`}
        className={styles['warning']}
        data-limit={warning.limit}
        transform={`translate(${x} ${y}) scale(${hair})`}
      >
        {warning.limit === 'apart' ? null : <path d={joint ? 'M0 -7 L7 6 H-7 Z' : 'M0 -7 L7 0 L0 7 L-7 0 Z'} />}
        {view === 'elevation' && (
          <text x={side === 'left' ? -11 : 11} y={row + 4} textAnchor={side === 'left' ? 'end' : 'start'}>
            {wordy || warning.leg === 0 ? warning.words : `leg ${warning.leg}`}
          </text>
        )}
      </g>
    );
  });
}

/** Directions to the right and upward in one corner, and a bar of known length in the other. */
export function SheetAxes({ sheet, view }: { readonly sheet: Sheet; readonly view: FlatViewName }) {
  const { left, top, width, height, hair, step } = sheet;
  const [right, up] = FLAT_AXES[view];
  const bar = (step * LINES_PER_HEAVY) / hair;
  return (
    <>
      <g
        className={styles['axes']}
        transform={`translate(${left + 16 * hair} ${top + height - 16 * hair}) scale(${hair})`}
      >
        <path d="M0 -26 V0 H26 M-3 -21 L0 -26 L3 -21 M21 -3 L26 0 L21 3" />
        <text x="34" y="4">
          {right}
        </text>
        <text x="0" y="-31">
          {up}
        </text>
      </g>
      <g
        className={styles['axes']}
        transform={`translate(${left + width - 14 * hair} ${top + height - 14 * hair}) scale(${hair})`}
      >
        <path d={`M${-bar} -4 V4 M${-bar} 0 H0 M0 -4 V4`} />
        <text x={-bar / 2} y="-6">
          {step * LINES_PER_HEAVY} mm
        </text>
      </g>
    </>
  );
}
