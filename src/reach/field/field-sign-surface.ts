import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import type { Box } from '../columns/bounding-box.ts';
import { NO_VERTEX } from '../shell/shell-grid.ts';
import { eachLoop, type MarkedGrid } from '../shell/shell-loops.ts';
import { legSignMeasure } from './field-cut.ts';
import { FieldPoint, isSingularCondition, QUANTITY_INDEX } from './field-point.ts';
import { LimitRoom } from './field-room.ts';
import type { FieldSettings } from './field-settings.ts';

/** Where the forces of legs change sign over the reach at one orientation: there their backlash opens. */
export interface SignSurface {
  /** Flat xyz, base axes [mm]. */
  readonly positions: Float32Array<ArrayBuffer>;
  readonly normals: Float32Array<ArrayBuffer>;
  /** Room to the nearest limit of the legs [mm]: the surface runs on a little way outside of the reach. */
  readonly room: Float32Array<ArrayBuffer>;
  /** The leg that each vertex belongs to, 1 to 6. */
  readonly legs: Uint8Array<ArrayBuffer>;
  readonly indices: Uint32Array<ArrayBuffer>;
  /** Legs, 1 to 6, whose force changes sign within the reach, as far as the grid shows. */
  readonly changing: readonly number[];
  /** Edges of the grid's cells [mm]: a smaller change of sign can be missed. */
  readonly step: number;
  /** Every pose of the reach is singular but for rounding: legs have no definite force there, and nothing is drawn. */
  readonly singular: boolean;
}

/** Cells along each edge of the box. */
const CELLS = 26;

/** A measure this small against the largest is rounding: a leg that carries nothing anywhere has no zero surface. */
const NOISE = 1e-10;

/** Steps of the secant rule on a grid edge: the measure is nearly linear over a cell, two steps leave less than a thousandth. */
const SECANT_STEPS = 2;

/** The zero surfaces of all six leg forces within a box around the reach [mm]. */
export function signSurface(
  mechanism: Mechanism,
  R_BP: Mat3,
  settings: FieldSettings,
  box: Box,
): Result<SignSurface, JudgementFault> {
  const made = FieldPoint.create(mechanism, R_BP, settings, ['legForce', 'condition']);
  if (!made.ok) return made;
  const surface = new SurfaceBuilder(made.value, new LimitRoom(mechanism, R_BP), box);
  // where all is singular, what looks like a force is rounding
  if (!surface.singular) for (let leg = 1; leg <= LEG_COUNT; leg++) surface.addLeg(leg);
  return ok(surface.result());
}

class SurfaceBuilder {
  /** No node within the reach is regular. */
  singular = true;
  private readonly point: FieldPoint;
  private readonly room: LimitRoom;
  private readonly low: readonly [number, number, number];
  private readonly step: readonly [number, number, number];
  private readonly grid: MarkedGrid;
  /** Force times det J of the six legs at every node; see `signMeasure`. */
  private readonly measures: Float64Array;
  private readonly rooms: Float64Array;
  private readonly positions: number[] = [];
  private readonly vertexRooms: number[] = [];
  private readonly vertexLegs: number[] = [];
  private readonly indices: number[] = [];
  private readonly changing = new Set<number>();

  constructor(point: FieldPoint, room: LimitRoom, box: Box) {
    this.point = point;
    this.room = room;
    this.low = [box[0], box[1], box[2]];
    this.step = [(box[3] - box[0]) / CELLS, (box[4] - box[1]) / CELLS, (box[5] - box[2]) / CELLS];
    const side = CELLS + 1;
    const nodes = side ** 3;
    const none = () => new Int32Array(nodes).fill(NO_VERTEX);
    this.grid = {
      cells: [CELLS, CELLS, CELLS],
      stride: [1, side, side * side],
      inside: new Uint8Array(nodes),
      crossings: [none(), none(), none()],
    };
    this.measures = new Float64Array(LEG_COUNT * nodes);
    this.rooms = new Float64Array(nodes);
    this.judgeNodes();
  }

  private judgeNodes(): void {
    const { point, measures, rooms, low, step } = this;
    const side = CELLS + 1;
    let largest = 0;
    for (let k = 0, node = 0; k < side; k++)
      for (let j = 0; j < side; j++)
        for (let i = 0; i < side; i++, node++) {
          const [x, y, z] = [low[0] + i * step[0], low[1] + j * step[1], low[2] + k * step[2]];
          rooms[node] = this.room.at(x, y, z);
          point.judge(x, y, z);
          if (rooms[node] >= 0 && !isSingularCondition(point.values[QUANTITY_INDEX.condition])) this.singular = false;
          for (let leg = 1; leg <= LEG_COUNT; leg++) {
            const measure = legSignMeasure(point, leg);
            measures[LEG_COUNT * node + leg - 1] = measure;
            if (rooms[node] >= 0) largest = Math.max(largest, Math.abs(measure));
          }
        }
    for (let n = 0; n < measures.length; n++) if (Math.abs(measures[n]) <= NOISE * largest) measures[n] = 0;
  }

  addLeg(leg: number): void {
    const { grid, measures } = this;
    const { inside, crossings, stride } = grid;
    for (let node = 0; node < inside.length; node++) inside[node] = measures[LEG_COUNT * node + leg - 1] > 0 ? 1 : 0;
    for (const axis of [0, 1, 2] as const) {
      crossings[axis].fill(NO_VERTEX);
      for (let node = 0; node + stride[axis] < inside.length; node++) {
        if (this.placeOf(node)[axis] === CELLS || inside[node] === inside[node + stride[axis]]) continue;
        // cells that lie wholly outside of the reach show nothing
        if (this.farOutside(node) && this.farOutside(node + stride[axis])) continue;
        crossings[axis][node] = this.addVertex(node, axis, leg);
      }
    }
    eachLoop(grid, (loop) => {
      if (loop.length < 3) return;
      for (let n = 1; n + 1 < loop.length; n++) this.indices.push(loop[0], loop[n], loop[n + 1]);
    });
  }

  private placeOf(node: number): readonly [number, number, number] {
    const { stride } = this.grid;
    return [node % stride[1], Math.floor((node % stride[2]) / stride[1]), Math.floor(node / stride[2])];
  }

  private farOutside(node: number): boolean {
    return this.rooms[node] < -2 * Math.max(...this.step);
  }

  private addVertex(node: number, axis: 0 | 1 | 2, leg: number): number {
    const { point, measures, low, step, positions } = this;
    const place = this.placeOf(node);
    const at = [low[0] + place[0] * step[0], low[1] + place[1] * step[1], low[2] + place[2] * step[2]];
    const start = at[axis];
    let a = 0;
    let b = 1;
    let fa = measures[LEG_COUNT * node + leg - 1];
    let fb = measures[LEG_COUNT * (node + this.grid.stride[axis]) + leg - 1];
    let share = fa / (fa - fb);
    for (let n = 0; n < SECANT_STEPS && fa !== fb; n++) {
      at[axis] = start + share * step[axis];
      point.judge(at[0], at[1], at[2]);
      const f = point.forces[leg - 1] * point.determinant;
      if (f > 0 === fa > 0) [a, fa] = [share, f];
      else [b, fb] = [share, f];
      share = a + ((b - a) * fa) / (fa - fb);
    }
    at[axis] = start + share * step[axis];
    const room = this.room.at(at[0], at[1], at[2]);
    if (room >= 0) this.changing.add(leg);
    this.vertexRooms.push(room);
    this.vertexLegs.push(leg);
    return positions.push(at[0], at[1], at[2]) / 3 - 1;
  }

  result(): SignSurface {
    const { positions, vertexRooms, vertexLegs, indices, changing, step } = this;
    return {
      positions: Float32Array.from(positions),
      normals: vertexNormals(positions, indices),
      room: Float32Array.from(vertexRooms),
      legs: Uint8Array.from(vertexLegs),
      indices: Uint32Array.from(indices),
      changing: [...changing].sort((one, other) => one - other),
      step: Math.max(...step),
      singular: this.singular && this.rooms.some((room) => room >= 0),
    };
  }
}

/** Unit normals of the vertices: the sum of their triangles' normals, weighted by area. */
function vertexNormals(p: readonly number[], indices: readonly number[]): Float32Array<ArrayBuffer> {
  const normals = new Float32Array(p.length);
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const v = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    for (const corner of [a, b, c]) for (let axis = 0; axis < 3; axis++) normals[corner + axis] += n[axis];
  }
  for (let n = 0; n < normals.length; n += 3) {
    const size = Math.hypot(normals[n], normals[n + 1], normals[n + 2]) || 1;
    for (let axis = n; axis < n + 3; axis++) normals[axis] /= size;
  }
  return normals;
}
