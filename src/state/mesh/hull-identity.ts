import type { PayloadShapeDocument } from '../../document/design.ts';
import { boxAround } from '../../document/judgement-inputs.ts';
import { shortHash } from '../../math/short-hash.ts';

/** The hull of an imported mesh, as the design keeps it. */
export type HullDocument = Extract<PayloadShapeDocument, { readonly hull: unknown }>['hull'];

/** What a mesh is found again by: `text` in full, `key` short enough to name a record by. */
export interface HullIdentity {
  readonly key: string;
  readonly text: string;
}

/** Corners that are moved by fields keep their distances to this [mm]. */
const SAME_PLACE = 1e-3;

/** Digits that distances between corners are compared with; corners are kept to as many. */
const DECIMALS = 3;

/** Names a hull by its shape and source, wherever it stands. */
export function hullIdentity({ corners_mm, source = '' }: HullDocument): HullIdentity {
  const { low } = boxAround(corners_mm);
  const apart = corners_mm.map((corner) => corner.map((value, axis) => (value - low[axis]).toFixed(DECIMALS)).join());
  const text = `${source}\n${apart.join(' ')}`;
  return { key: shortHash(text), text };
}

/** Whether two hulls are the same but for where they stand. */
export function sameHull(a: HullDocument, b: HullDocument): boolean {
  if (a === b) return true;
  if (a.source !== b.source || a.corners_mm.length !== b.corners_mm.length) return false;
  const [lowA, lowB] = [boxAround(a.corners_mm).low, boxAround(b.corners_mm).low];
  return a.corners_mm.every((corner, n) =>
    corner.every((value, axis) => Math.abs(value - lowA[axis] - (b.corners_mm[n][axis] - lowB[axis])) < SAME_PLACE),
  );
}
