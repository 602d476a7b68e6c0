import { presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import { type Box, newBox } from '../../reach/columns/bounding-box.ts';
import { ACROSS, type Direction } from '../../reach/columns/column-cutter.ts';
import type { CutPlane } from '../../reach/field/field-cut.ts';
import type { Cut, SessionState } from '../session/session-store.ts';

/** Room around the reach on a cut, as a share of its size: its outline is drawn whole. */
const MARGIN = 0.03;

const boxes = new WeakMap<ReachPicture, Box | null>();

/** The box of a drawn reach [mm]; null when nothing is reachable. */
export function pictureBox(picture: ReachPicture): Box | null {
  const known = boxes.get(picture);
  if (known !== undefined) return known;
  const { positions } = picture.shell;
  const box = newBox();
  box.fill(Number.POSITIVE_INFINITY, 0, 3).fill(Number.NEGATIVE_INFINITY, 3);
  for (let n = 0; n < positions.length; n++) {
    const axis = n % 3;
    box[axis] = Math.min(box[axis], positions[n]);
    box[3 + axis] = Math.max(box[3 + axis], positions[n]);
  }
  const found = positions.length === 0 ? null : box;
  boxes.set(picture, found);
  return found;
}

/** The box with room around it, for grids whose faces should lie outside of the reach. */
export function roomyBox(box: Box): Box {
  const wide = newBox();
  for (let axis = 0; axis < 3; axis++) {
    const margin = MARGIN * (box[3 + axis] - box[axis]);
    wide[axis] = box[axis] - margin;
    wide[3 + axis] = box[3 + axis] + margin;
  }
  return wide;
}

/** Where a cut stands on its axis [mm]: where it was put, or at the tool point. */
export const cutPlace = ({ axis, at }: Cut, document: DesignDocument, pose: SessionState['pose']): number =>
  at ?? presentPose(document, pose).position[axis];

/** The rectangle of a cut over a drawn reach. */
export function cutPlane(box: Box, axis: Direction, at: number): CutPlane {
  const wide = roomyBox(box);
  const [u, v] = ACROSS[axis];
  return { axis, at, low: [wide[u], wide[v]], high: [wide[3 + u], wide[3 + v]] };
}
