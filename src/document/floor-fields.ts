import { z } from 'zod';
import { measure } from './field-kinds.ts';
import type { NumberName } from './ranges.ts';

/**
 * What a pose must keep to count as usable, by the field's quantities: least values where more is better, greatest where less
 * is. The names are also those of the command line.
 */
export const FLOOR_NAMES = {
  condition: 'condition',
  toolError: 'toolError_mm',
  stiffness: 'stiffness_N_mm',
  legForce: 'legForce_N',
  leastPush: 'leastPush_N',
  clearance: 'clearance_mm',
  shortMargin: 'shortMargin_mm',
  longMargin: 'longMargin_mm',
  baseMargin: 'baseMargin_deg',
  platformMargin: 'platformMargin_deg',
} as const satisfies Record<string, NumberName>;

/** since version 1; files from before it had none */
export const floors = z
  .strictObject({
    condition: measure('condition').exactOptional(),
    toolError_mm: measure('toolError_mm').exactOptional(),
    stiffness_N_mm: measure('stiffness_N_mm').exactOptional(),
    legForce_N: measure('legForce_N').exactOptional(),
    leastPush_N: measure('leastPush_N').exactOptional(),
    clearance_mm: measure('clearance_mm').exactOptional(),
    shortMargin_mm: measure('shortMargin_mm').exactOptional(),
    longMargin_mm: measure('longMargin_mm').exactOptional(),
    baseMargin_deg: measure('baseMargin_deg').exactOptional(),
    platformMargin_deg: measure('platformMargin_deg').exactOptional(),
  })
  .describe('What a pose must keep to count as usable; a quantity left out is not asked for.');
