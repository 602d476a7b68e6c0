import { DynamicDrawUsage, InstancedInterleavedBuffer } from 'three';

/**
 * A buffer of fixed-size records that is written from the start for every new drawing. It keeps its memory; when a drawing needs
 * more, it doubles. Numbers are rounded to Float32 here.
 */
export class RecordBuffer {
  readonly stride: number;
  buffer: InstancedInterleavedBuffer;
  count = 0;

  constructor(stride: number, capacity: number) {
    this.stride = stride;
    this.buffer = makeBuffer(stride, capacity);
  }

  get capacity(): number {
    return this.buffer.count;
  }

  get array(): Float32Array {
    const { array } = this.buffer;
    if (!(array instanceof Float32Array)) throw new Error('records are Float32');
    return array;
  }

  /** Makes room for one more record and gives the place of its first number; true in `grew` means a new buffer. */
  next(onGrown: () => void): number {
    if (this.count === this.capacity) {
      const old = this.array;
      this.buffer = makeBuffer(this.stride, 2 * this.capacity);
      this.array.set(old);
      onGrown();
    }
    return this.stride * this.count++;
  }

  /** Marks what was written for upload. */
  commit(): void {
    this.buffer.clearUpdateRanges();
    this.buffer.addUpdateRange(0, this.stride * this.count);
    this.buffer.needsUpdate = true;
  }
}

function makeBuffer(stride: number, capacity: number): InstancedInterleavedBuffer {
  const buffer = new InstancedInterleavedBuffer(new Float32Array(stride * capacity), stride, 1);
  buffer.setUsage(DynamicDrawUsage);
  return buffer;
}
