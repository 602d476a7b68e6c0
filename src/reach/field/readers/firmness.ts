import type { MakeReader } from './reader.ts';

export const firmness: MakeReader = (state) => () => state.smallestSingular();
