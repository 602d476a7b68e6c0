import { DIMENSION_NAMES, type DimensionName } from '../terms/dimensions.ts';
import { FIGURE_NAMES, type FigureName } from '../terms/figures.ts';
import { coarseFirst, type Grid, gridSize } from './grid.ts';
import { FIGURE_COUNT } from './layout-figures.ts';

/** One number of every layout of a table: a dimension that varies, or a figure. */
export type ColumnName = DimensionName | FigureName;

/** Lowest and highest value that is let through, both included; columns that are not named let everything through. */
export type Ranges = Readonly<Partial<Record<ColumnName, readonly [low: number, high: number]>>>;

/** Tells dimensions from figures. */
export const isDimension = (name: ColumnName): name is DimensionName =>
  DIMENSION_NAMES.some((dimension) => dimension === name);

/** Steps and counts that turn an index into the place on one axis: `floor(index / step) % count`. */
interface AxisPlace {
  readonly values: Float64Array;
  readonly step: number;
}

/**
 * The figures of a whole grid, column by column, filled in any order. Indices are those of the grid; `order` is the order in which
 * rows are expected ({@link coarseFirst}).
 */
export class LayoutTable {
  readonly size: number;
  readonly order: Uint32Array;
  /** 1 where the figures of an index are in. */
  readonly known: Uint8Array;
  /** Layouts whose figures are in. */
  count = 0;
  private readonly figures: readonly Float64Array[];
  private readonly axes: ReadonlyMap<DimensionName, AxisPlace>;

  constructor(readonly grid: Grid) {
    this.size = gridSize(grid);
    this.order = coarseFirst(grid);
    this.known = new Uint8Array(this.size);
    this.figures = FIGURE_NAMES.map(() => new Float64Array(this.size));
    const axes = new Map<DimensionName, AxisPlace>();
    let step = this.size;
    for (const { name, values } of grid) {
      step /= values.length;
      axes.set(name, { values, step });
    }
    this.axes = axes;
  }

  /** Takes in rows of {@link FIGURE_COUNT} numbers for the layouts that stand in `order` from `first` on. */
  addRows(first: number, rows: Float64Array): void {
    const { order, known, figures } = this;
    const count = rows.length / FIGURE_COUNT;
    for (let n = 0; n < count; n++) {
      const index = order[first + n];
      if (known[index] === 0) this.count += 1;
      known[index] = 1;
      for (let figure = 0; figure < FIGURE_COUNT; figure++) figures[figure][index] = rows[n * FIGURE_COUNT + figure];
    }
  }

  /** All values of a figure by index; meaningful where `known`. */
  figure(name: FigureName): Float64Array {
    return this.figures[FIGURE_NAMES.indexOf(name)];
  }

  /** Reads one column at an index. A dimension that does not vary here has no value: NaN. */
  reader(name: ColumnName): (index: number) => number {
    if (!isDimension(name)) {
      const values = this.figure(name);
      return (index) => values[index];
    }
    const axis = this.axes.get(name);
    if (!axis) return () => Number.NaN;
    const { values, step } = axis;
    const count = values.length;
    return (index) => values[Math.floor(index / step) % count];
  }

  /** Known layouts within all ranges: 1, others 0. */
  passing(ranges: Ranges): Uint8Array {
    const mask = this.known.slice();
    for (const name of rangeNames(ranges)) {
      const range = ranges[name];
      if (!range) continue;
      const [low, high] = range;
      const read = this.reader(name);
      for (let index = 0; index < mask.length; index++) {
        if (mask[index] === 0) continue;
        const value = read(index);
        if (!(value >= low && value <= high)) mask[index] = 0;
      }
    }
    return mask;
  }

  /** The figures of one layout as a row. */
  row(index: number): Float64Array {
    return Float64Array.from(this.figures, (values) => values[index]);
  }
}

/** The columns that a set of ranges limits. */
export const rangeNames = (ranges: Ranges): readonly ColumnName[] =>
  [...DIMENSION_NAMES, ...FIGURE_NAMES].filter((name) => ranges[name] !== undefined);
