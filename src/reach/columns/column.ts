import { LEG_COUNT } from '../../kinematics/layout.ts';
import { ACROSS, type ColumnCutter, type Direction } from './column-cutter.ts';
import { BASE, bindingCone, type Constraints, isActive, JOINT_COUNT, LONG, MOST_CONES, SHORT } from './constraints.ts';

/** Gaps that the cones of one joint can cut: one each for the two of a band, and one for a wedge. */
const GAPS_A_JOINT = 3;

/** One allowed stretch, minus one gap for each inner sphere and those of the joints, leaves at most this many. */
export const MOST_INTERVALS = 1 + LEG_COUNT + GAPS_A_JOINT * JOINT_COUNT;

/** Numbers kept for each cone: axis (u, v, w), w^2 - C^2, |C|, apex (u, v, w). */
const STRIDE = 8;

/**
 * Exact allowed stretches of a line parallel to an axis, under six shells and the cones of twelve joints.
 *
 * On the line a point is w away from the apex's height, and rho^2 = du^2 + dv^2. A sphere of radius l bounds w by
 * +-sqrt(l^2 - rho^2). A cone with unit axis a and cosine C holds where k + a_w w >= C sqrt(rho^2 + w^2), k = du a_u + dv a_v;
 * squared: A w^2 + 2 k a_w w + (k^2 - C^2 rho^2) >= 0 with A = a_w^2 - C^2, whose quarter discriminant is C^2 (k^2 + A rho^2).
 * Convex limits (outer spheres, cones up to 90 deg) shrink one interval; the others cut open gaps out of it. Two planes of which
 * one has to be kept cut out the wedge that is beyond both.
 *
 * Made once and reused: {@link setLayout}, then {@link cut} as often as needed. Nothing is allocated after construction.
 */
export class ColumnReach implements ColumnCutter {
  /** Result of the last {@link cut}: ends of interval i [mm], ascending. */
  readonly starts = new Float64Array(MOST_INTERVALS);
  readonly stops = new Float64Array(MOST_INTERVALS);
  /** The limit that binds at either end. */
  readonly startCodes = new Uint8Array(MOST_INTERVALS);
  readonly stopCodes = new Uint8Array(MOST_INTERVALS);

  private constraints: Constraints | null = null;
  private direction: Direction = 2;
  private u = 0;
  private v = 0;

  private readonly outer = [0, 1, 2].map(() => new Float64Array(4 * LEG_COUNT));
  private readonly inner = [0, 1, 2].map(() => new Float64Array(4 * LEG_COUNT));
  private readonly cones = [0, 1, 2].map(() => new Float64Array(STRIDE * MOST_CONES));
  private readonly outerCodes = new Uint8Array(LEG_COUNT);
  private readonly innerCodes = new Uint8Array(LEG_COUNT);
  private readonly coneCodes = new Uint8Array(MOST_CONES);
  private outerCount = 0;
  private innerCount = 0;
  /** Cones up to 90 deg come first, the wider ones next, and pairs of planes last. */
  private convexCount = 0;
  private singleCount = 0;
  private coneCount = 0;
  private maxSquare = 0;
  private minSquare = 0;

  private readonly gapStarts = new Float64Array(MOST_INTERVALS);
  private readonly gapStops = new Float64Array(MOST_INTERVALS);
  private readonly gapStartCodes = new Uint8Array(MOST_INTERVALS);
  private readonly gapStopCodes = new Uint8Array(MOST_INTERVALS);

  /** Takes the limits at one orientation, prepared for all three column directions. */
  setLayout(constraints: Constraints): void {
    const { apexes, max, min } = constraints;
    this.constraints = constraints;
    this.maxSquare = max * max;
    this.minSquare = min * min;
    this.outerCount = 0;
    this.innerCount = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      if (isActive(constraints, LONG + leg)) {
        writeAcross(this.outer, 4 * this.outerCount, apexes, 3 * leg);
        this.outerCodes[this.outerCount++] = LONG + leg;
      }
      if (isActive(constraints, SHORT + leg) && min > 0) {
        writeAcross(this.inner, 4 * this.innerCount, apexes, 3 * leg);
        this.innerCodes[this.innerCount++] = SHORT + leg;
      }
    }
    this.coneCount = 0;
    this.addCones(constraints, CONVEX);
    this.convexCount = this.coneCount;
    this.addCones(constraints, WIDE);
    this.singleCount = this.coneCount;
    this.addCones(constraints, PAIRED);
  }

  /** A cone past 90 deg, and a plane of a pair, is kept as the cone about the opposite axis that it leaves out. */
  private addCones(constraints: Constraints, sort: ConeSort): void {
    const { apexes, axes, cosines, firstCones } = constraints;
    const sign = sort === CONVEX ? 1 : -1;
    for (let joint = 0; joint < JOINT_COUNT; joint++) {
      if (!isActive(constraints, BASE + joint)) continue;
      for (let cone = firstCones[joint]; cone < firstCones[joint + 1]; cone++) {
        if (sortOf(constraints, cone) !== sort) continue;
        for (let direction = 0; direction < 3; direction++) {
          const data = this.cones[direction];
          const at = STRIDE * this.coneCount;
          for (let step = 0; step < 3; step++) {
            const axis = (direction + 1 + step) % 3;
            data[at + step] = sign * axes[3 * cone + axis];
            data[at + 5 + step] = apexes[3 * (joint % LEG_COUNT) + axis];
          }
          // a pair of planes is told by NaN, which no comparison of a cone lets through
          data[at + 3] = sort === PAIRED ? Number.NaN : data[at + 2] * data[at + 2] - cosines[cone] * cosines[cone];
          data[at + 4] = Math.abs(cosines[cone]);
        }
        this.coneCodes[this.coneCount++] = BASE + joint;
      }
    }
  }

  /** Number of allowed intervals of the column at (u, v); see {@link starts}, {@link stops} and their codes. */
  cut(direction: Direction, u: number, v: number): number {
    this.direction = direction;
    this.u = u;
    this.v = v;

    // 1. One stretch inside all outer spheres.
    const outer = this.outer[direction];
    const { outerCodes, maxSquare } = this;
    let low = Number.NEGATIVE_INFINITY;
    let high = Number.POSITIVE_INFINITY;
    let lowCode = 0;
    let highCode = 0;
    for (let i = 0, at = 0; i < this.outerCount; i++, at += 4) {
      const du = u - outer[at];
      const dv = v - outer[at + 1];
      const square = maxSquare - du * du - dv * dv;
      if (!(square > 0)) return 0;
      const half = Math.sqrt(square);
      const centre = outer[at + 2];
      if (centre - half > low) {
        low = centre - half;
        lowCode = outerCodes[i];
      }
      if (centre + half < high) {
        high = centre + half;
        highCode = outerCodes[i];
      }
    }
    if (!(low < high)) return 0;

    // 2. Shrunk by the convex cones; 3. the other cones and the pairs of planes cut gaps.
    const cones = this.cones[direction];
    const { coneCodes, convexCount, singleCount, gapStarts, gapStops, gapStartCodes, gapStopCodes } = this;
    let gaps = 0;
    for (let i = 0, at = 0; i < this.coneCount; i++, at += STRIDE) {
      const du = u - cones[at + 5];
      const dv = v - cones[at + 6];
      const axisW = cones[at + 2];
      const A = cones[at + 3];
      const C = cones[at + 4];
      const k = du * cones[at] + dv * cones[at + 1];
      const square = du * du + dv * dv;
      const root2 = k * k + A * square;
      let from = Number.NEGATIVE_INFINITY;
      let to = Number.POSITIVE_INFINITY;
      let some = true;
      if (A > 0 || (A === 0 && k > 0)) {
        // The line enters the cone once. The two roots multiply to K / A; the one that would cancel is taken from the product.
        const s = C * Math.sqrt(root2);
        const m = k * axisW;
        const K = k * k - C * C * square;
        if (axisW > 0) from = cones[at + 7] + (m > 0 ? -K / (s + m) : (s - m) / A);
        else if (axisW < 0) to = cones[at + 7] + (m < 0 ? K / (s - m) : -(s + m) / A);
      } else if (k > 0 && root2 > 0) {
        // It crosses the cone and leaves again.
        const s = C * Math.sqrt(root2);
        const m = k * axisW;
        const K = k * k - C * C * square;
        from = cones[at + 7] + (m > 0 ? -K / (s + m) : (s - m) / A);
        to = cones[at + 7] + (m < 0 ? K / (s - m) : -(s + m) / A);
      } else if (i < singleCount) {
        some = false;
      } else {
        // The wedge is where the column is beyond this plane and beyond the next one.
        i++;
        at += STRIDE;
        const k2 = du * cones[at] + dv * cones[at + 1];
        const axisW2 = cones[at + 2];
        if (axisW > 0) from = cones[at + 7] - k / axisW;
        else if (axisW < 0) to = cones[at + 7] - k / axisW;
        else some = k > 0;
        if (axisW2 > 0) from = Math.max(from, cones[at + 7] - k2 / axisW2);
        else if (axisW2 < 0) to = Math.min(to, cones[at + 7] - k2 / axisW2);
        else some = some && k2 > 0;
        some = some && from < to;
      }
      if (i < convexCount) {
        if (!some) return 0;
        if (from > low) {
          low = from;
          lowCode = coneCodes[i];
        }
        if (to < high) {
          high = to;
          highCode = coneCodes[i];
        }
        if (!(low < high)) return 0;
      } else if (some && from < high && to > low) {
        if (from <= low) {
          if (to >= high) return 0;
          low = to;
          lowCode = coneCodes[i];
        } else if (to >= high) {
          high = from;
          highCode = coneCodes[i];
        } else {
          gapStarts[gaps] = from;
          gapStops[gaps] = to;
          gapStartCodes[gaps] = coneCodes[i];
          gapStopCodes[gaps++] = coneCodes[i];
        }
      }
    }

    // 4. The inner spheres cut gaps too; one that reaches an end just shortens the stretch.
    const inner = this.inner[direction];
    const { innerCodes, minSquare } = this;
    for (let i = 0, at = 0; i < this.innerCount; i++, at += 4) {
      const du = u - inner[at];
      const dv = v - inner[at + 1];
      const square = minSquare - du * du - dv * dv;
      if (!(square > 0)) continue;
      const half = Math.sqrt(square);
      const from = inner[at + 2] - half;
      const to = inner[at + 2] + half;
      if (from >= high || to <= low) continue;
      if (from <= low) {
        if (to >= high) return 0;
        low = to;
        lowCode = innerCodes[i];
      } else if (to >= high) {
        high = from;
        highCode = innerCodes[i];
      } else {
        gapStarts[gaps] = from;
        gapStops[gaps] = to;
        gapStartCodes[gaps] = innerCodes[i];
        gapStopCodes[gaps++] = innerCodes[i];
      }
    }

    const { starts, stops, startCodes, stopCodes } = this;
    starts[0] = low;
    startCodes[0] = lowCode;
    if (gaps === 0) {
      stops[0] = high;
      stopCodes[0] = highCode;
      return 1;
    }
    return this.split(gaps, high, highCode);
  }

  /** Takes the gaps out of the stretch that starts at `starts[0]` and ends at `high`. */
  private split(gaps: number, high: number, highCode: number): number {
    const { gapStarts, gapStops, gapStartCodes, gapStopCodes } = this;
    for (let i = 1; i < gaps; i++) {
      const from = gapStarts[i];
      const to = gapStops[i];
      const fromCode = gapStartCodes[i];
      const toCode = gapStopCodes[i];
      let j = i - 1;
      for (; j >= 0 && gapStarts[j] > from; j--) {
        gapStarts[j + 1] = gapStarts[j];
        gapStops[j + 1] = gapStops[j];
        gapStartCodes[j + 1] = gapStartCodes[j];
        gapStopCodes[j + 1] = gapStopCodes[j];
      }
      gapStarts[j + 1] = from;
      gapStops[j + 1] = to;
      gapStartCodes[j + 1] = fromCode;
      gapStopCodes[j + 1] = toCode;
    }
    const { starts, stops, startCodes, stopCodes } = this;
    let count = 0;
    for (let i = 0; i < gaps; i++) {
      const from = gapStarts[i];
      if (from >= high) break;
      if (gapStops[i] <= starts[count]) continue;
      if (from > starts[count]) {
        stops[count] = from;
        stopCodes[count] = gapStartCodes[i];
        count++;
      }
      starts[count] = gapStops[i];
      startCodes[count] = gapStopCodes[i];
    }
    if (starts[count] < high) {
      stops[count] = high;
      stopCodes[count] = highCode;
      count++;
    }
    return count;
  }

  startSlope(interval: number): number {
    return this.slopeAt(this.starts[interval], this.startCodes[interval]);
  }

  stopSlope(interval: number): number {
    return this.slopeAt(this.stops[interval], this.stopCodes[interval]);
  }

  /** |n_w| of a limit's surface where the last column meets it. */
  slopeAt(w: number, code: number): number {
    const { constraints, direction } = this;
    if (!constraints) return 0;
    const [uAxis, vAxis] = ACROSS[direction];
    const leg = 3 * (code % LEG_COUNT);
    const du = this.u - constraints.apexes[leg + uAxis];
    const dv = this.v - constraints.apexes[leg + vAxis];
    const dw = w - constraints.apexes[leg + direction];
    const size = Math.sqrt(du * du + dv * dv + dw * dw);
    if (code < BASE) return Math.abs(dw) / size;
    const { axes, cosines, sines } = constraints;
    const cone =
      direction === 2
        ? bindingCone(constraints, code, du, dv, dw)
        : direction === 0
          ? bindingCone(constraints, code, dw, du, dv)
          : bindingCone(constraints, code, dv, dw, du);
    return Math.abs((cosines[cone] * dw) / size - axes[3 * cone + direction]) / sines[cone];
  }

  /** Allowed length of a column [mm]. */
  length(direction: Direction, u: number, v: number): number {
    const count = this.cut(direction, u, v);
    let sum = 0;
    for (let i = 0; i < count; i++) sum += this.stops[i] - this.starts[i];
    return sum;
  }
}

/** How a cone cuts a column: to one stretch, by a gap, or by a gap together with the cone that is the other of its pair. */
const CONVEX = 0;
const WIDE = 1;
const PAIRED = 2;
type ConeSort = typeof CONVEX | typeof WIDE | typeof PAIRED;

function sortOf({ cosines, either }: Constraints, cone: number): ConeSort {
  if (either[cone] === 1 || (cone > 0 && either[cone - 1] === 1)) return PAIRED;
  return cosines[cone] >= 0 ? CONVEX : WIDE;
}

/** Writes a point as (u, v, w) for each of the three column directions. */
function writeAcross(tables: readonly Float64Array[], at: number, points: Float64Array, from: number): void {
  for (let direction = 0; direction < 3; direction++) {
    for (let step = 0; step < 3; step++) {
      tables[direction][at + step] = points[from + ((direction + 1 + step) % 3)];
    }
  }
}
