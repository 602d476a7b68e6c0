import { ColumnReach, MOST_INTERVALS } from './column.ts';
import type { ColumnCutter, Direction } from './column-cutter.ts';
import type { Constraints } from './constraints.ts';

/** Stretches of a column allowed by every one of several sets of limits. */
export class CommonReach implements ColumnCutter {
  starts: Float64Array;
  stops: Float64Array;
  startCodes: Uint8Array;
  stopCodes: Uint8Array;
  private startOwners: Uint16Array;
  private stopOwners: Uint16Array;
  private other: Buffers;
  private readonly columns: ColumnReach[];
  /** The order in which sets are asked; one that rejected a column comes first at the next. */
  private readonly order: Uint16Array;

  constructor(sets: readonly Constraints[]) {
    this.columns = sets.map((set) => {
      const column = new ColumnReach();
      column.setLayout(set);
      return column;
    });
    this.order = Uint16Array.from(sets.keys());
    const present = newBuffers(sets.length * MOST_INTERVALS);
    this.starts = present.starts;
    this.stops = present.stops;
    this.startCodes = present.startCodes;
    this.stopCodes = present.stopCodes;
    this.startOwners = present.startOwners;
    this.stopOwners = present.stopOwners;
    this.other = newBuffers(sets.length * MOST_INTERVALS);
  }

  cut(direction: Direction, u: number, v: number): number {
    const { order } = this;
    let count = this.take(order[0], this.columns[order[0]].cut(direction, u, v));
    for (let place = 1; place < order.length && count > 0; place++) {
      const owner = order[place];
      count = this.meet(count, owner, this.columns[owner].cut(direction, u, v));
      if (count > 0) continue;
      order[place] = order[0];
      order[0] = owner;
    }
    return count;
  }

  startSlope(interval: number): number {
    return this.columns[this.startOwners[interval]].slopeAt(this.starts[interval], this.startCodes[interval]);
  }

  stopSlope(interval: number): number {
    return this.columns[this.stopOwners[interval]].slopeAt(this.stops[interval], this.stopCodes[interval]);
  }

  private take(owner: number, count: number): number {
    const column = this.columns[owner];
    for (let i = 0; i < count; i++) {
      this.starts[i] = column.starts[i];
      this.stops[i] = column.stops[i];
      this.startCodes[i] = column.startCodes[i];
      this.stopCodes[i] = column.stopCodes[i];
      this.startOwners[i] = owner;
      this.stopOwners[i] = owner;
    }
    return count;
  }

  /** Intersects the present stretches with another set's. */
  private meet(count: number, owner: number, otherCount: number): number {
    const column = this.columns[owner];
    const into = this.other;
    let next = 0;
    for (let i = 0, j = 0; i < count && j < otherCount; ) {
      const later = column.starts[j] > this.starts[i];
      const earlier = column.stops[j] < this.stops[i];
      const start = later ? column.starts[j] : this.starts[i];
      const stop = earlier ? column.stops[j] : this.stops[i];
      if (start < stop) {
        into.starts[next] = start;
        into.stops[next] = stop;
        into.startCodes[next] = later ? column.startCodes[j] : this.startCodes[i];
        into.stopCodes[next] = earlier ? column.stopCodes[j] : this.stopCodes[i];
        into.startOwners[next] = later ? owner : this.startOwners[i];
        into.stopOwners[next++] = earlier ? owner : this.stopOwners[i];
      }
      if (earlier) j++;
      else i++;
    }
    this.swap();
    return next;
  }

  private swap(): void {
    const { starts, stops, startCodes, stopCodes, startOwners, stopOwners, other } = this;
    this.starts = other.starts;
    this.stops = other.stops;
    this.startCodes = other.startCodes;
    this.stopCodes = other.stopCodes;
    this.startOwners = other.startOwners;
    this.stopOwners = other.stopOwners;
    other.starts = starts;
    other.stops = stops;
    other.startCodes = startCodes;
    other.stopCodes = stopCodes;
    other.startOwners = startOwners;
    other.stopOwners = stopOwners;
  }
}

interface Buffers {
  starts: Float64Array;
  stops: Float64Array;
  startCodes: Uint8Array;
  stopCodes: Uint8Array;
  startOwners: Uint16Array;
  stopOwners: Uint16Array;
}

const newBuffers = (size: number): Buffers => ({
  starts: new Float64Array(size),
  stops: new Float64Array(size),
  startCodes: new Uint8Array(size),
  stopCodes: new Uint8Array(size),
  startOwners: new Uint16Array(size),
  stopOwners: new Uint16Array(size),
});
