import { type Box, newBox } from './bounding-box.ts';
import { ACROSS, type ColumnCutter, type Direction } from './column-cutter.ts';
import { CODE_COUNT } from './constraints.ts';
import { Climber, type Searched } from './extents.ts';

const DIRECTIONS: readonly Direction[] = [0, 1, 2];

/** Start of the grids in cells: generic, and different for each direction. */
const OFFSETS = [0.3819660112501051, 0.7548776662466927, 0.5698402909980532];

/**
 * The boundary of the reach, felt by columns along all three axes. A column that crosses it with normal n along axis d stands
 * for the area cell / |n_d|; weighing each crossing by n_d^2 of that, cell |n_d|, the three directions add up to the whole area,
 * since n_x^2 + n_y^2 + n_z^2 = 1.
 */
export class Boundary {
  /** Area by limit code [mm^2]. */
  readonly areas = new Float64Array(CODE_COUNT);
  /** Box of all crossings met, the ends pushed out by a local search [mm]. */
  readonly box: Box = newBox();
  /** Place and interval of the extreme column: u, v, start, stop of the low end of x, y, z, then of the high end. */
  private readonly extremes = new Float64Array(24);
  private readonly steps = new Float64Array(3);
  private readonly climber = new Climber();

  /** Cuts about `columns` columns along each axis through a box that holds the reach. */
  collect(cutter: ColumnCutter, box: Box, columns: number): void {
    this.areas.fill(0);
    this.box.fill(Number.POSITIVE_INFINITY, 0, 3);
    this.box.fill(Number.NEGATIVE_INFINITY, 3, 6);
    for (const direction of DIRECTIONS) this.sweep(cutter, box, direction, columns);
  }

  /** Pushes the box found by {@link collect} out to the local extremes, never beyond the connected parts met. */
  sharpen(searched: Searched): void {
    for (const direction of DIRECTIONS) {
      if (!(this.box[direction] <= this.box[3 + direction])) continue;
      this.push(searched, direction, -1);
      this.push(searched, direction, 1);
    }
  }

  private push(searched: Searched, direction: Direction, sign: 1 | -1): void {
    const { extremes, box } = this;
    const end = sign < 0 ? direction : 3 + direction;
    const at = 4 * end;
    const stretch = { u: extremes[at], v: extremes[at + 1], start: extremes[at + 2], stop: extremes[at + 3] };
    box[end] = this.climber.farthest(searched, direction, sign, stretch, this.steps[direction]);
  }

  private sweep(cutter: ColumnCutter, box: Box, direction: Direction, columns: number): void {
    const [uAxis, vAxis] = ACROSS[direction];
    const width = box[3 + uAxis] - box[uAxis];
    const depth = box[3 + vAxis] - box[vAxis];
    const cell = Math.sqrt((width * depth) / columns);
    const acrossU = Math.max(1, Math.round(width / cell));
    const acrossV = Math.max(1, Math.round(depth / cell));
    const stepU = width / acrossU;
    const stepV = depth / acrossV;
    const area = stepU * stepV;
    this.steps[direction] = cell;
    for (let j = 0; j < acrossV; j++) {
      const v = box[vAxis] + (j + OFFSETS[direction]) * stepV;
      for (let i = 0; i < acrossU; i++) {
        const u = box[uAxis] + (i + OFFSETS[(direction + 1) % 3]) * stepU;
        const count = cutter.cut(direction, u, v);
        if (count === 0) continue;
        for (let k = 0; k < count; k++) {
          this.areas[cutter.startCodes[k]] += area * cutter.startSlope(k);
          this.areas[cutter.stopCodes[k]] += area * cutter.stopSlope(k);
        }
        this.note(
          direction,
          u,
          v,
          cutter.starts[0],
          cutter.stops[0],
          cutter.starts[count - 1],
          cutter.stops[count - 1],
        );
      }
    }
  }

  /** Keeps the extreme columns of a direction: the first interval counts for the low end, the last one for the high end. */
  private note(
    direction: Direction,
    u: number,
    v: number,
    firstStart: number,
    firstStop: number,
    lastStart: number,
    lastStop: number,
  ): void {
    const { box, extremes } = this;
    if (firstStart < box[direction]) {
      box[direction] = firstStart;
      const at = 4 * direction;
      extremes[at] = u;
      extremes[at + 1] = v;
      extremes[at + 2] = firstStart;
      extremes[at + 3] = firstStop;
    }
    if (lastStop > box[3 + direction]) {
      box[3 + direction] = lastStop;
      const at = 12 + 4 * direction;
      extremes[at] = u;
      extremes[at + 1] = v;
      extremes[at + 2] = lastStart;
      extremes[at + 3] = lastStop;
    }
  }
}
