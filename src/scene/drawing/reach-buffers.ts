import { BufferAttribute, type BufferGeometry, DynamicDrawUsage, type TypedArray } from 'three';
import { firmnessShare } from '../colour/firmness-scale.ts';

/** Memory grows by this factor, so that a slowly growing picture is seldom moved. */
const GROWTH = 1.5;

/** Makes the numbers behind an attribute. */
type Maker = (length: number) => TypedArray;

/** The geometry's attribute `name` with room for `count` items; keeps the old one where it is large enough. */
export function roomFor(
  geometry: BufferGeometry,
  name: string,
  count: number,
  itemSize: number,
  make: Maker,
): BufferAttribute {
  const old = geometry.getAttribute(name);
  if (old instanceof BufferAttribute && old.count >= count) return old;
  const attribute = grownAttribute(geometry, count, itemSize, make);
  geometry.setAttribute(name, attribute);
  return attribute;
}

/** Likewise for the geometry's index. */
export function roomForIndex(geometry: BufferGeometry, count: number): BufferAttribute {
  const old = geometry.getIndex();
  if (old && old.count >= count) return old;
  const index = grownAttribute(geometry, count, 1, (length) => new Uint32Array(length));
  geometry.setIndex(index);
  return index;
}

function grownAttribute(geometry: BufferGeometry, count: number, itemSize: number, make: Maker): BufferAttribute {
  // the card's copy of the smaller one goes with it
  geometry.dispose();
  const size = Math.ceil(count * GROWTH) + 64;
  return new BufferAttribute(make(size * itemSize), itemSize).setUsage(DynamicDrawUsage);
}

/** Copies numbers to the front of an attribute and marks just those for upload. */
export function writeFront(attribute: BufferAttribute, values: ArrayLike<number>): void {
  attribute.array.set(values);
  markFront(attribute, values.length);
}

export function markFront(attribute: BufferAttribute, length: number): void {
  attribute.clearUpdateRanges();
  attribute.addUpdateRange(0, length);
  attribute.needsUpdate = true;
}

/** Places on the firmness scale as bytes, to the front of an attribute. */
export function writeShares(attribute: BufferAttribute, magnifications: Float64Array): void {
  const { array } = attribute;
  for (let i = 0; i < magnifications.length; i++) array[i] = Math.round(255 * firmnessShare(magnifications[i]));
  markFront(attribute, magnifications.length);
}
