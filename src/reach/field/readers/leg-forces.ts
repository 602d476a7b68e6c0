import { LEG_COUNT } from '../../../kinematics/layout.ts';
import type { MakeReader } from './reader.ts';

export const legForce: MakeReader = (state, { load }) => {
  if (!load) return null;
  const { forces } = state;
  return () => {
    if (!state.hasForces) return Number.POSITIVE_INFINITY;
    let largest = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) if (Math.abs(forces[leg]) > largest) largest = Math.abs(forces[leg]);
    return largest;
  };
};

export const leastPush: MakeReader = (state, { load }) => {
  if (!load) return null;
  const { forces } = state;
  return () => {
    if (!state.hasForces) return Number.NEGATIVE_INFINITY;
    let least = Number.POSITIVE_INFINITY;
    for (let leg = 0; leg < LEG_COUNT; leg++) if (forces[leg] < least) least = forces[leg];
    return least;
  };
};
