import { place } from '../../../kinematics/bodies.ts';
import { SmallestClearance } from '../../../kinematics/clearance.ts';
import { clearanceModel } from '../../../kinematics/clearance-pairs.ts';
import { writeSegments } from '../../../kinematics/leg-bodies.ts';
import { platformOrigin } from '../../../kinematics/pose.ts';
import type { MakeReader } from './reader.ts';

export const clearance: MakeReader = (state, { clearance: asked }) => {
  if (!asked) return null;
  const { mechanism, R_BP, position, vectors, lengths } = state;
  const bodies = new SmallestClearance(clearanceModel(mechanism, asked));
  const { segments, placements, spec } = bodies.model;
  /** Tool point to the platform origin, base axes. */
  const toOrigin = platformOrigin({ p_BoTo_B: [0, 0, 0], R_BP }, mechanism.p_PoTo_P);
  place(placements.platform, R_BP, [0, 0, 0]);
  const { p } = placements.platform;
  return () => {
    writeSegments(mechanism, spec, vectors, lengths, segments);
    p[0] = position[0] + toOrigin[0];
    p[1] = position[1] + toOrigin[1];
    p[2] = position[2] + toOrigin[2];
    return bodies.now();
  };
};
