import type { QuantityName } from '../../../terms/quantities.ts';
import { clearance } from './clearance.ts';
import { condition } from './condition.ts';
import { firmness } from './firmness.ts';
import { baseMargin, platformMargin } from './joint-margins.ts';
import { leastPush, legForce } from './leg-forces.ts';
import { longMargin, shortMargin } from './leg-margins.ts';
import type { MakeReader } from './reader.ts';
import { stiffness } from './stiffness.ts';
import { toolError } from './tool-error.ts';

/** How each quantity is read at a position. */
export const READERS = {
  condition,
  firmness,
  toolError,
  stiffness,
  legForce,
  leastPush,
  clearance,
  shortMargin,
  longMargin,
  baseMargin,
  platformMargin,
} as const satisfies Record<QuantityName, MakeReader>;
