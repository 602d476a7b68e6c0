import type { DesignDocument } from '../../document/design.ts';
import { RANGES } from '../../document/ranges.ts';
import { poseNumber, withPoseNumber } from '../../kinematics/free-travel.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { stoodHome } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import { degrees, radians } from '../../terms/units.ts';
import type { Legal, Travel } from '../../ui/travel.ts';
import { presentPoseNow } from '../pose-binding.ts';

/** Digits behind the point that shown angles keep: turning radians into degrees and back leaves rounding errors. */
const KEPT_DECIMALS = 9;

/** One of the six numbers of a pose in millimetres or degrees, by its place in FREEDOMS. */
export const shownPoseNumber = (pose: PoseAngles, index: number): number => shownNumber(poseNumber(pose, index), index);

/** One of them by its value in the unit of poses. */
export function shownNumber(value: number, index: number): number {
  return index < 3 ? value : Number(degrees(value).toFixed(KEPT_DECIMALS)) + 0;
}

/** A number as a control shows it, back in the unit of poses. */
export const insideNumber = (shown: number, index: number): number => (index < 3 ? shown : radians(shown));

/** Pose before the running move, for Escape; undefined while nothing moves. */
let before: PoseAngles | null | undefined;

/** Moves the platform; ends with {@link endJog} or {@link dropJog}. There is nothing to refuse, limits only warn. */
export function movePlatform(pose: PoseAngles): void {
  if (before === undefined) before = sessionStore.getState().pose;
  sessionStore.setState({ pose });
}

/** Moves the platform by one of its six numbers [mm or deg]. */
export function jogTo(index: number, shown: number): null {
  movePlatform(withPoseNumber(presentPoseNow(), index, insideNumber(shown, index)));
  return null;
}

/** Ends a move. */
export function endJog(): void {
  before = undefined;
}

/** Gives a running move back. */
export function dropJog(): void {
  if (before !== undefined) sessionStore.setState({ pose: before });
  before = undefined;
}

/** Back to home, which the platform follows from then on. */
export const returnHome = (): void => sessionStore.setState(stoodHome);

const ANGLE_TRAVEL: Travel = { min: -60, max: 60, step: 0.5 };

/** How far a slider goes for positions: this many strokes either way of home. */
const STROKES = 1.25;

/** A slider's travel for one number: a little more than the stroke about home, or 60 deg either way. */
export function jogTravel({ home, legs }: DesignDocument, index: number): Travel {
  if (index >= 3) return ANGLE_TRAVEL;
  const span = Math.max(1, Math.ceil(STROKES * (legs.max_mm - legs.min_mm)));
  const centre = Math.round(home.position_mm[index]);
  return { min: centre - span, max: centre + span, step: 1 };
}

/** What a jog field takes: as far as the design file lets a home pose go. */
export const JOG_LEGAL: readonly Legal[] = [
  RANGES.position_mm,
  RANGES.position_mm,
  RANGES.position_mm,
  RANGES.roll_deg,
  RANGES.pitch_deg,
  RANGES.yaw_deg,
];
