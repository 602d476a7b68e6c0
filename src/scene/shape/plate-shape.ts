import type { PlateBody } from '../../kinematics/keep-out.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { plateHeights } from '../../kinematics/plate-solids.ts';
import { circleOutline, type PlateOutline, plateOutline, roundedOutline } from './plate-outline.ts';

/** A plate as drawn: as the design states it, or else by drawing conventions that follow the layout's size. */
export interface PlateShape {
  readonly outline: PlateOutline;
  /** z of the face toward the other plate and of the face away from it, plate frame [mm]. */
  readonly innerFace: number;
  readonly outerFace: number;
  /** Farthest corner from the frame's axis [mm]. */
  readonly radius: number;
  /** Radius of the round opening in the middle [mm]; 0 for none. */
  readonly opening: number;
}

/** Thickness of a drawn plate as a share of the layout's size. */
const THICKNESS = 0.05;

/** Plate outside the joints, in ball diameters. */
const MARGIN_BALLS = 1.1;

/** Diameter of the drawn ball of a joint [mm], from the leg's rod and barrel: between the two. */
export const ballDiameter = ({ barrelDiameter, rodDiameter }: Mechanism['legs']): number =>
  Math.max(rodDiameter * 1.25, (rodDiameter + barrelDiameter) / 2.2);

/** The plate below the base joints or above the platform joints; `stated` when the design says what it is like. */
export function plateShape(mechanism: Mechanism, plate: PlateName, stated: PlateBody | null = null): PlateShape {
  if (stated) return statedShape(mechanism, plate, stated);
  const layout = mechanism.spec[plate];
  const joints = mechanism.centres[plate];
  const ball = ballDiameter(mechanism.legs);
  const away = plate === 'base' ? -1 : 1;
  const outline = plateOutline(joints, MARGIN_BALLS * ball, layout.kind === 'ring' ? layout.ring.radius : null);
  const innerFace =
    layout.kind === 'ring' ? away * layout.ring.jointHeight : away * (farthestAway(joints, away) + ball / 2);
  return {
    outline,
    innerFace,
    outerFace: innerFace + away * THICKNESS * mechanism.size,
    radius: largestRadius(outline.corners),
    opening: 0,
  };
}

function statedShape(mechanism: Mechanism, plate: PlateName, body: PlateBody): PlateShape {
  const [bottom, top] = plateHeights(mechanism, plate, body.thickness);
  const outline = body.outline.kind === 'disc' ? circleOutline(body.outline.radius) : polygon(body.outline.points);
  return {
    outline,
    innerFace: plate === 'base' ? top : bottom,
    outerFace: plate === 'base' ? bottom : top,
    radius: largestRadius(outline.corners),
    opening: body.opening,
  };
}

/** A convex outline with sharp corners, counter-clockwise. */
const polygon = (points: Float64Array): PlateOutline =>
  roundedOutline(
    Array.from({ length: points.length / 2 }, (_, n) => [points[2 * n], points[2 * n + 1]] as const),
    0,
  );

/** How far the outermost joint of free points lies on the plate's side of its joint plane [mm]. */
function farthestAway(joints: Float64Array, away: number): number {
  let farthest = Number.NEGATIVE_INFINITY;
  for (let i = 2; i < joints.length; i += 3) farthest = Math.max(farthest, away * joints[i]);
  return farthest;
}

function largestRadius(corners: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < corners.length; i += 2) largest = Math.max(largest, Math.hypot(corners[i], corners[i + 1]));
  return largest;
}
