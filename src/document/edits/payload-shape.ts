import type { Vec3 } from '../../math/vec3.ts';
import type { DesignDocument, PayloadShapeDocument } from '../design.ts';
import { ASSUMED_MASS, boxAround, middleOf } from '../judgement-inputs.ts';
import { RANGES } from '../ranges.ts';
import { platformTop } from './plate-body.ts';

/** Kinds of payload shapes; none where nothing is known of it. */
export type PayloadShapeKind = 'none' | 'box' | 'cylinder' | 'hull';

export function payloadShapeKind({ payload }: DesignDocument): PayloadShapeKind {
  const shape = payload?.shape;
  if (!shape) return 'none';
  return 'box' in shape ? 'box' : 'cylinder' in shape ? 'cylinder' : 'hull';
}

/** Size of a first payload [mm]. */
const FIRST_HEIGHT_mm = 40;
const FIRST_WIDTH_mm = 60;

/** Gives the payload a box or cylinder that stands on the platform, or no shape. */
export function choosePayloadShape(document: DesignDocument, kind: Exclude<PayloadShapeKind, 'hull'>): DesignDocument {
  if (kind === 'none') return withPayloadShape(document, null);
  const bottom = platformTop(document);
  const top = bottom + FIRST_HEIGHT_mm;
  if (kind === 'box') {
    const middle_mm: Vec3 = [0, 0, (bottom + top) / 2];
    return withPayloadShape(document, {
      box: { middle_mm, size_mm: [FIRST_WIDTH_mm, FIRST_WIDTH_mm, FIRST_HEIGHT_mm] },
    });
  }
  return withPayloadShape(document, {
    cylinder: { from_mm: [0, 0, bottom], to_mm: [0, 0, top], diameter_mm: FIRST_WIDTH_mm },
  });
}

/** Sets the payload's shape, or takes it away (null); the mass that was assumed so far stays as a number of the design. */
export function withPayloadShape(document: DesignDocument, shape: PayloadShapeDocument | null): DesignDocument {
  if (!shape && !document.payload?.shape) return document;
  const { shape: _, ...rest } = document.payload ?? { mass_kg: ASSUMED_MASS };
  return { ...document, payload: shape ? { ...rest, shape } : rest };
}

/** Vectors of a payload's shape by their names in the file; a hull has a middle. */
export type PayloadVector = 'middle_mm' | 'size_mm' | 'from_mm' | 'to_mm';

const ZERO: Vec3 = [0, 0, 0];

export function payloadVector({ payload }: DesignDocument, name: PayloadVector): Vec3 {
  const shape = payload?.shape;
  if (!shape) return ZERO;
  if ('hull' in shape) {
    if (name === 'middle_mm') return middleOf(shape);
    const { low, high } = boxAround(shape.hull.corners_mm);
    return name === 'size_mm' ? [high[0] - low[0], high[1] - low[1], high[2] - low[2]] : ZERO;
  }
  if ('box' in shape) return name === 'middle_mm' || name === 'size_mm' ? shape.box[name] : ZERO;
  return name === 'from_mm' || name === 'to_mm' ? shape.cylinder[name] : ZERO;
}

/** Digits kept of moved corners [mm]: a thousandth of a micrometre. */
const KEPT_DECIMALS = 6;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

export function changePayloadVector(
  document: DesignDocument,
  name: PayloadVector,
  axis: number,
  value: number,
): DesignDocument {
  const shape = document.payload?.shape;
  if (!shape) return document;
  const now = payloadVector(document, name);
  const replaced: Vec3 = [axis === 0 ? value : now[0], axis === 1 ? value : now[1], axis === 2 ? value : now[2]];
  if ('box' in shape) return withPayloadShape(document, { box: { ...shape.box, [name]: replaced } });
  if ('cylinder' in shape) return withPayloadShape(document, { cylinder: { ...shape.cylinder, [name]: replaced } });
  const step = value - now[axis];
  const corners_mm = shape.hull.corners_mm.map(
    ([x, y, z]): Vec3 => [
      axis === 0 ? kept(x + step) : x,
      axis === 1 ? kept(y + step) : y,
      axis === 2 ? kept(z + step) : z,
    ],
  );
  return withPayloadShape(document, { hull: { ...shape.hull, corners_mm } });
}

/** Diameter of a payload cylinder; the smallest there is for another shape. */
export function payloadDiameter({ payload }: DesignDocument): number {
  const shape = payload?.shape;
  return shape && 'cylinder' in shape ? shape.cylinder.diameter_mm : RANGES.diameter_mm.min;
}

export function changePayloadDiameter(document: DesignDocument, diameter_mm: number): DesignDocument {
  const shape = document.payload?.shape;
  return shape && 'cylinder' in shape
    ? withPayloadShape(document, { cylinder: { ...shape.cylinder, diameter_mm } })
    : document;
}

/** Turn of a payload box about the platform's z [deg]. */
export function payloadTurn({ payload }: DesignDocument): number {
  const shape = payload?.shape;
  return shape && 'box' in shape ? (shape.box.boxTurn_deg ?? 0) : 0;
}

export function changePayloadTurn(document: DesignDocument, boxTurn_deg: number): DesignDocument {
  const shape = document.payload?.shape;
  return shape && 'box' in shape ? withPayloadShape(document, { box: { ...shape.box, boxTurn_deg } }) : document;
}
