import { type Box, newBox } from './bounding-box.ts';
import { ACROSS, type ColumnCutter, type Direction } from './column-cutter.ts';
import type { ColumnLattice } from './column-lattice.ts';
import { CODE_COUNT } from './constraints.ts';
import { EndStarts } from './end-starts.ts';
import { Climber, type Searched } from './extents.ts';
import type { ThreeFoldMirror } from './symmetry.ts';

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
  private starts: EndStarts | null = null;
  private readonly steps = new Float64Array(3);
  private readonly climber = new Climber();

  /** Cuts about `columns` columns along each axis through a box that holds the reach. */
  collect(cutter: ColumnCutter, box: Box, columns: number): void {
    this.areas.fill(0);
    const starts = new EndStarts(box);
    this.starts = starts;
    this.box.fill(Number.POSITIVE_INFINITY, 0, 3);
    this.box.fill(Number.NEGATIVE_INFINITY, 3, 6);
    for (const direction of DIRECTIONS) this.sweep(cutter, box, direction, columns, starts);
  }

  /** Offers the columns of a lattice, which lie closer, as starts for {@link sharpen}. */
  offer(lattice: ColumnLattice, symmetry: ThreeFoldMirror | null): void {
    this.starts?.offerLattice(lattice, symmetry);
  }

  /** Pushes the box found by {@link collect} out to the extremes of the connected parts met. */
  sharpen(searched: Searched): void {
    this.starts?.widen(this.climber, searched, this.steps, this.box);
  }

  private sweep(cutter: ColumnCutter, box: Box, direction: Direction, columns: number, starts: EndStarts): void {
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
        const low = cutter.starts[0];
        const high = cutter.stops[count - 1];
        this.box[direction] = Math.min(this.box[direction], low);
        this.box[3 + direction] = Math.max(this.box[3 + direction], high);
        offerEnd(starts, direction, u, v, low);
        offerEnd(starts, direction, u, v, high);
      }
    }
  }
}

/** Offers an end of a column for all ends of the reach: along other axes too, it may lie on a horn that their columns miss. */
function offerEnd(starts: EndStarts, direction: Direction, u: number, v: number, w: number): void {
  if (direction === 0) starts.offerAll(w, u, v);
  else if (direction === 1) starts.offerAll(v, w, u);
  else starts.offerAll(u, v, w);
}
