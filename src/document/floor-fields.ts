import { recordOf } from '../math/record.ts';
import { FLOOR_NAMES } from '../terms/quantities.ts';
import { measure } from './field-kinds.ts';
import { z } from './zod.ts';

/**
 * What a pose must keep to count as usable: least values where more is better, greatest where less is. The names are also those
 * of the command line. Since version 1; files from before it had none.
 */
export const floors = z
  .strictObject(recordOf(FLOOR_NAMES, (name) => measure(name).exactOptional()))
  .describe('What a pose must keep to count as usable; a quantity left out is not asked for.');
