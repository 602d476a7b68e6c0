import { JointRoom } from '../joint-room.ts';
import type { MakeReader } from './reader.ts';

export const baseMargin: MakeReader = ({ mechanism, R_BP, J }) => {
  const room = new JointRoom(mechanism, 'base', R_BP);
  return () => room.least(J);
};

export const platformMargin: MakeReader = ({ mechanism, R_BP, J }) => {
  const room = new JointRoom(mechanism, 'platform', R_BP);
  return () => room.least(J);
};
