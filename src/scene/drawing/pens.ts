import type { PlateName } from '../../kinematics/layout.ts';
import { INK } from '../colour/inks.ts';
import type { Pen } from './ink-lines.ts';
import type { SolidPen } from './solid-set.ts';

/** The base is drawn with a heavy line, the platform with a light one: that and their letters tell them apart. */
export const PLATE_WIDTH: Readonly<Record<PlateName, number>> = { base: 2, platform: 1.2 };

const line = (ink: number, width: number, opacity = 1): Pen => ({ ink, width, opacity });
const solid = (ink: number, width: number, tint = 0): SolidPen => ({ ink, width, tint });

export const PENS = {
  leg: solid(INK.line, 1.2),
  legHighlighted: solid(INK.accent, 2.4, 0.22),
  legBroken: solid(INK.warn, 2.2, 0.12),
  joint: solid(INK.line, 1.2, 0.12),
  jointBroken: solid(INK.warn, 2.2, 0.5),
  post: solid(INK.line, 1, 0.06),
  rim: line(INK.line, 1),
  missing: line(INK.warn, 1.6),
  cone: line(INK.soft, 0.9, 0.75),
  coneSpoke: line(INK.soft, 0.7, 0.28),
  coneBroken: line(INK.warn, 2.4),
  coneHighlighted: line(INK.accent, 1.6),
  payload: line(INK.line, 1.1),
  bound: line(INK.soft, 0.8, 0.5),
  keepOut: line(INK.line, 1.2, 0.85),
  nearest: line(INK.accent, 1.8),
  tooNear: line(INK.warn, 2.2),
  axis: line(INK.line, 1.3),
  tool: line(INK.accent, 1.8),
  ghost: line(INK.soft, 1.1, 0.85),
  loose: line(INK.accent, 1.1, 0.9),
  looseAxis: line(INK.accent, 1.2, 0.7),
  gridFine: line(INK.grid, 0.7, 0.55),
  gridHeavy: line(INK.grid, 1, 1),
  scale: line(INK.soft, 1.3),
} as const;
