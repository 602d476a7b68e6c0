import type { DesignParts } from '../../document/design-parts.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { outlinePoints } from '../model/outline-points.ts';
import { gridPlan } from '../shape/floor-grid.ts';
import { type FlatViewName, project } from './projection.ts';

/** The part of the plane that one drawing shows [mm, y down], and its scale. */
export interface Sheet {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** One CSS pixel [mm]. */
  readonly hair: number;
  /** Distance of fine grid lines [mm]. */
  readonly step: number;
}

/** Margin round the drawing as a share of the panel's smaller side, and at most so much [CSS px]. */
const MARGIN_SHARE = 0.1;
const MOST_MARGIN = 34;

/** Room below for the axes and the scale bar [CSS px]. */
const FOOT = 30;

/** Room left for the platform to be jogged about, as a share of the leg's stroke. */
const JOG_ROOM = 0.35;

/** The sheet that holds a design at home with some room to move, filling a panel of this size [CSS px]. */
export function sheetFor(
  mechanism: Mechanism,
  reach: Float64Array | null,
  view: FlatViewName,
  panelWidth: number,
  panelHeight: number,
  parts: DesignParts | null = null,
): Sheet {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const point of outlinePoints(mechanism, mechanism.home, reach, parts)) {
    const [x, y] = project(view, point);
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  if (view === 'elevation') top -= JOG_ROOM * (mechanism.legs.max - mechanism.legs.min);
  const margin = Math.min(MOST_MARGIN, MARGIN_SHARE * Math.min(panelWidth, panelHeight));
  const usableWidth = Math.max(40, panelWidth - 2 * margin);
  const usableHeight = Math.max(40, panelHeight - 2 * margin - FOOT);
  const hair = Math.max((right - left) / usableWidth, (bottom - top) / usableHeight);
  const width = panelWidth * hair;
  const height = panelHeight * hair;
  return {
    left: (left + right - width) / 2,
    top: (top + bottom - height + FOOT * hair) / 2,
    width,
    height,
    hair,
    step: gridPlan(Math.max(right - left, bottom - top) / 2).step,
  };
}

/** Grid lines of the whole sheet, `step` mm apart, through the origin. */
export function gridPath({ left, top, width, height }: Sheet, step: number): string {
  const parts: string[] = [];
  for (let i = Math.ceil(left / step); i * step <= left + width; i++) parts.push(`M${i * step} ${top}v${height}`);
  for (let i = Math.ceil(top / step); i * step <= top + height; i++) parts.push(`M${left} ${i * step}h${width}`);
  return parts.join('');
}
