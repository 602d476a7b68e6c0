import { FIRST_ORDER_TURN, firstOrderShift, largestLength } from '../../../kinematics/accuracy.ts';
import { LEG_COUNT } from '../../../kinematics/layout.ts';
import { ToolErrorBounds } from '../tool-error-bounds.ts';
import type { MakeReader } from './reader.ts';

/** The longest translation that the legs' errors can cause; infinite where no figure of the first order holds. */
export const toolError: MakeReader = (state, { errors }) => {
  if (!errors) return null;
  const { mechanism, J, inverse } = state;
  const legBounds = new ToolErrorBounds(mechanism, state.R_BP, errors);
  const shiftLimit = firstOrderShift(mechanism);
  return () => {
    if (state.determinant === 0) return Number.POSITIVE_INFINITY;
    const bounds = legBounds.at(J);
    const shift = largestLength(inverse, 0, bounds);
    if (!(shift <= shiftLimit)) return Number.POSITIVE_INFINITY;
    // the sums of every row's sizes bound the turn at less cost; only where they do not settle it the corners are tried
    let square = 0;
    for (let row = 18; row < 36; row += 6) {
      let sum = 0;
      for (let leg = 0; leg < LEG_COUNT; leg++) sum += Math.abs(inverse[row + leg]) * bounds[leg];
      square += sum * sum;
    }
    if (square <= FIRST_ORDER_TURN * FIRST_ORDER_TURN) return shift;
    return largestLength(inverse, 3, bounds) <= FIRST_ORDER_TURN ? shift : Number.POSITIVE_INFINITY;
  };
};
