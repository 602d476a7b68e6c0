import type { DesignDocument } from '../../document/design.ts';
import { floorsFromDocument } from '../../document/floors.ts';
import type { FieldPicture, FieldValues } from '../../jobs/field-picture.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import type { FieldState } from '../../state/reach/field-store.ts';
import { isFieldColouring, type ReachColouring } from '../../state/session/session-store.ts';
import { type Floor, keepsFloor, type QuantityName } from '../../terms/quantities.ts';
import { type FieldScale, fieldScale } from '../colour/field-scale.ts';

/** One part of the drawn reach: its values (null: it keeps its firmness) and where floors are missed (null: no floors). */
export interface PartPaint {
  readonly values: Float32Array | null;
  readonly missed: Uint8Array | null;
}

/** How the field colours the drawn reach; the same object as long as nothing about it changes. */
export interface ReachPaint {
  readonly picture: ReachPicture;
  /** Null: colours stay those of firmness or of the limits. */
  readonly scale: FieldScale | null;
  readonly cloud: PartPaint;
  readonly shell: PartPaint;
}

/** Points that miss a floor of which there are values. */
export function missedFloors(values: FieldValues, floors: readonly Floor[], count: number): Uint8Array {
  const missed = new Uint8Array(count);
  for (const { quantity, value } of floors) {
    const own = values[quantity];
    if (!own) continue;
    for (let n = 0; n < count; n++) if (!keepsFloor(quantity, own[n], value)) missed[n] = 1;
  }
  return missed;
}

/** Paint of the last reach that was asked for, so that nothing is written twice. */
export class PaintKeeper {
  private field: FieldPicture | null = null;
  private key = '';
  private paint: ReachPaint | null = null;

  /** Null while the field of this picture is not known, or nothing of it is shown. */
  follow(
    picture: ReachPicture | null,
    { field }: Pick<FieldState, 'field'>,
    colouring: ReachColouring,
    document: DesignDocument,
  ): ReachPaint | null {
    const { finished } = field;
    if (!finished || finished.subject.picture !== picture) return null;
    const floors = floorsFromDocument(document);
    const quantity = isFieldColouring(colouring) ? colouring : null;
    if (quantity === null && floors.length === 0) return null;
    const key = JSON.stringify([quantity, floors]);
    if (this.field !== finished.value || this.key !== key) {
      this.field = finished.value;
      this.key = key;
      this.paint = paintOf(finished.subject.picture, finished.value, quantity, floors);
    }
    return this.paint;
  }
}

function paintOf(
  picture: ReachPicture,
  field: FieldPicture,
  quantity: QuantityName | null,
  floors: readonly Floor[],
): ReachPaint | null {
  const part = (values: FieldValues, count: number): PartPaint => ({
    values: quantity ? (values[quantity] ?? null) : null,
    missed: floors.length > 0 ? missedFloors(values, floors, count) : null,
  });
  if (quantity && !field.cloud[quantity]) return null;
  return {
    picture,
    scale: quantity ? scaleOf(field, quantity) : null,
    cloud: part(field.cloud, picture.cloud.magnifications.length),
    shell: part(field.shell, picture.shell.magnifications.length),
  };
}

const scales = new WeakMap<FieldPicture, Map<QuantityName, FieldScale>>();

/** Where all poses are singular there is no value to lay a scale over: any will do, nothing is drawn by it. */
const NO_RANGE = { min: 1, max: 2, low: 1, high: 2, count: 0 };

/** The colour scale of a quantity over a field; the same object each time. */
export function scaleOf(field: FieldPicture, quantity: QuantityName): FieldScale {
  const known = scales.get(field) ?? new Map<QuantityName, FieldScale>();
  scales.set(field, known);
  const scale = known.get(quantity) ?? fieldScale(quantity, field.ranges[quantity] ?? NO_RANGE);
  known.set(quantity, scale);
  return scale;
}
