import { magnitudeColour } from '../../state/colour/magnitude-colours.ts';
import { QUANTITIES } from '../../terms/quantities.ts';
import { diverging } from './diverging.ts';
import type { FieldScale } from './field-scale.ts';

/** The colour maps of the drawing: magnitudes of which less is better, or more, and values with a sign. */
export type MapName = 'less' | 'more' | 'signed';

/** Colours by the place on a scale, its lowest value at 0. A signed value is worse where it is negative, and orange there. */
export const MAPS: Readonly<Record<MapName, (share: number) => string>> = {
  less: (share) => magnitudeColour(share, 'less'),
  more: (share) => magnitudeColour(share, 'more'),
  signed: diverging,
};

/** The map of a scale; without one it is the magnification that is shown. */
export function mapOf(scale: Pick<FieldScale, 'kind' | 'quantity'> | null): MapName {
  if (!scale) return 'less';
  return scale.kind === 'signed' ? 'signed' : QUANTITIES[scale.quantity].better;
}
