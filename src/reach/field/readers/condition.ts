import type { MakeReader } from './reader.ts';

export const condition: MakeReader = (state) => () => {
  const smallest = state.smallestSingular();
  return smallest > 0 ? state.largestSingular() / smallest : Number.POSITIVE_INFINITY;
};
