import { LEG_COUNT } from '../../../kinematics/layout.ts';
import type { MakeReader } from './reader.ts';

export const shortMargin: MakeReader = ({ mechanism, lengths }) => {
  const { min } = mechanism.legs;
  return () => {
    let shortest = lengths[0];
    for (let leg = 1; leg < LEG_COUNT; leg++) if (lengths[leg] < shortest) shortest = lengths[leg];
    return shortest - min;
  };
};

export const longMargin: MakeReader = ({ mechanism, lengths }) => {
  const { max } = mechanism.legs;
  return () => {
    let longest = lengths[0];
    for (let leg = 1; leg < LEG_COUNT; leg++) if (lengths[leg] > longest) longest = lengths[leg];
    return max - longest;
  };
};
