import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { type Floor, type QuantityName, senseOf } from '../../terms/quantities.ts';
import { ACROSS, type Direction } from '../columns/column-cutter.ts';
import { FieldPoint, isSingularCondition, needsRegular, QUANTITY_INDEX } from './field-point.ts';
import { LimitRoom } from './field-room.ts';
import type { FieldSettings } from './field-settings.ts';
import { PoseQuality } from './pose-quality.ts';

/** What a cut can show: a quantity of the field, or how many times larger leg errors come out at the tool. */
export type CutQuantity = QuantityName | 'magnification';

/** Whose force's change of sign is marked: any leg's, or that of leg 1 to 6. */
export type SignLeg = 'any' | 1 | 2 | 3 | 4 | 5 | 6;

/** A rectangle across the reach, square to an axis of the base frame. */
export interface CutPlane {
  /** Axis that the plane is square to. */
  readonly axis: Direction;
  /** Where on that axis [mm]. */
  readonly at: number;
  /** The rectangle on the two other axes, in cyclic order [mm]. */
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

export interface CutQuestion {
  readonly plane: CutPlane;
  readonly quantity: CutQuantity;
  readonly floors: readonly Floor[];
  /** Null: nothing is asked about signs. */
  readonly leg: SignLeg | null;
  /** Nodes along the longer side. */
  readonly resolution: number;
}

/** Values at the nodes of a plane cut; the first of the two other axes runs fastest. */
export interface FieldCut {
  readonly plane: CutPlane;
  readonly quantity: CutQuantity;
  readonly nodes: readonly [number, number];
  /** Inner unit; not finite where singular. */
  readonly values: Float32Array<ArrayBuffer>;
  /** Least room to a limit of the legs [mm]: negative outside of the reach. */
  readonly room: Float32Array<ArrayBuffer>;
  /** The nearest limit: place in LIMIT_NAMES. */
  readonly limits: Uint8Array<ArrayBuffer>;
  /** -1 to 1: at least 0 where every floor is met; 1 everywhere without floors. */
  readonly slack: Float32Array<ArrayBuffer>;
  /** -1 to 1, continuous, 0 where the force of the leg is; 1 everywhere when no leg is asked for. */
  readonly sign: Float32Array<ArrayBuffer>;
}

const FEWEST_NODES = 8;

/** Values, limits, floors and signs over a plane cut through the reach at one orientation. */
export function fieldCut(
  mechanism: Mechanism,
  R_BP: Mat3,
  settings: FieldSettings,
  { plane, quantity, floors, leg, resolution }: CutQuestion,
): Result<FieldCut, JudgementFault> {
  const own = quantity === 'magnification' ? [] : [quantity];
  const signed = leg === null ? [] : (['legForce'] as const);
  const wanted = [...new Set<QuantityName>([...own, ...signed, ...floors.map((floor) => floor.quantity), 'condition'])];
  const made = FieldPoint.create(mechanism, R_BP, settings, wanted);
  if (!made.ok) return made;
  const nodes = nodesOf(plane, resolution);
  const total = nodes[0] * nodes[1];
  if (!(total > 0)) return failed({ kind: 'input', message: 'The cut has no width.' });
  const cut = {
    plane,
    quantity,
    nodes,
    values: new Float32Array(total),
    room: new Float32Array(total),
    limits: new Uint8Array(total),
    slack: new Float32Array(total).fill(1),
    sign: new Float32Array(total).fill(1),
  };
  const room = new LimitRoom(mechanism, R_BP);
  const quality = quantity === 'magnification' ? new PoseQuality(mechanism, R_BP) : null;
  eachNode(plane, nodes, (n, x, y, z) => {
    cut.room[n] = room.at(x, y, z);
    cut.limits[n] = room.nearest;
    const point = made.value;
    point.judge(x, y, z);
    if (quality) {
      quality.at(x, y, z);
      cut.values[n] = 1 / quality.smallest;
    } else if (quantity !== 'magnification') cut.values[n] = drawnValue(point, quantity);
    if (floors.length > 0) cut.slack[n] = floorSlack(point, floors);
    if (leg !== null) cut.sign[n] = isSingular(point) ? Number.NaN : signMeasure(point, leg);
  });
  if (leg !== null) normalise(cut.sign, cut.room);
  return ok(cut);
}

function nodesOf({ low, high }: CutPlane, resolution: number): readonly [number, number] {
  const width = high[0] - low[0];
  const depth = high[1] - low[1];
  const spacing = Math.max(width, depth) / (resolution - 1);
  const count = (side: number) => Math.max(FEWEST_NODES, Math.round(side / spacing) + 1);
  return [count(width), count(depth)];
}

function eachNode(
  { axis, at, low, high }: CutPlane,
  [columns, rows]: readonly [number, number],
  visit: (n: number, x: number, y: number, z: number) => void,
): void {
  const place = [0, 0, 0];
  const [u, v] = ACROSS[axis];
  place[axis] = at;
  for (let row = 0; row < rows; row++) {
    place[v] = low[1] + ((high[1] - low[1]) * row) / (rows - 1);
    for (let column = 0; column < columns; column++) {
      place[u] = low[0] + ((high[0] - low[0]) * column) / (columns - 1);
      visit(row * columns + column, place[0], place[1], place[2]);
    }
  }
}

/** A quantity as it is drawn; NaN where there is none because the pose is singular but for rounding. Asks for `condition`. */
function drawnValue(point: FieldPoint, quantity: QuantityName): number {
  return needsRegular(quantity) && isSingular(point) ? Number.NaN : point.values[QUANTITY_INDEX[quantity]];
}

const isSingular = ({ values }: FieldPoint): boolean => isSingularCondition(values[QUANTITY_INDEX.condition]);

/** How far the least kept floor is from its limit, as a share of the limit, held within -1 to 1. */
export function floorSlack({ values }: FieldPoint, floors: readonly Floor[]): number {
  let least = 1;
  for (const { quantity, value } of floors) {
    const slack = (senseOf(quantity) * (values[QUANTITY_INDEX[quantity]] - value)) / (Math.abs(value) || 1);
    least = Math.min(least, Number.isNaN(slack) ? -1 : slack);
  }
  return Math.max(-1, least);
}

/**
 * Zero where the force of a leg (1 to 6) is. By Cramer's rule force times det J is a polynomial of the Jacobian's entries: it has the
 * same zeros, and no poles at singular poses, where the force itself jumps from one end to the other without passing zero.
 */
export const legSignMeasure = ({ forces, determinant }: FieldPoint, leg: number): number =>
  determinant === 0 ? 0 : forces[leg - 1] * determinant;

/**
 * Zero where the force of the chosen leg is, see {@link legSignMeasure}. For any leg: the least of the six, with the sign of their product, so that it changes sign where any of them does.
 */
export function signMeasure(point: FieldPoint, leg: SignLeg): number {
  if (leg !== 'any') return legSignMeasure(point, leg);
  let least = Number.POSITIVE_INFINITY;
  let sign = 1;
  for (let k = 1; k <= LEG_COUNT; k++) {
    const measure = legSignMeasure(point, k);
    if (measure < 0) sign = -sign;
    least = Math.min(least, Math.abs(measure));
  }
  return sign * least;
}

/** Scales to the largest value within the reach; what is larger outside is held. */
function normalise(values: Float32Array, room: Float32Array): void {
  let largest = 0;
  for (let n = 0; n < values.length; n++)
    if (room[n] >= 0 && Math.abs(values[n]) > largest) largest = Math.abs(values[n]);
  for (let n = 0; n < values.length; n++) {
    // without a definite force there is no change of sign either
    values[n] = Number.isNaN(values[n]) ? 1 : Math.min(1, Math.max(-1, values[n] / (largest || 1)));
  }
}
