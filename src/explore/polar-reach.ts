import { gaussLegendre, type Quadrature } from '../math/gauss-legendre.ts';
import { addColumn, type ColumnBatch, columnBatch } from './column-batch.ts';
import { Crossings } from './crossings.ts';
import type { ColumnCutter, StandingColumns } from './standing-columns.ts';
import type { Symmetry } from './symmetry.ts';

/** How finely the outline of a reach is found. */
export interface PolarGrid {
  /** Directions in a sixth of a turn. */
  readonly directions: number;
  /** Columns tried along a direction to find where the reach starts and ends. */
  readonly probes: number;
}

/** Numbers kept of a ray: unit vector x y, from and to [mm], the arc it stands for [rad], its place among the directions. */
const RAY_STRIDE = 6;

/** Numbers kept of a piece of a ray: the ray's place, from and to [mm]. */
const PIECE_STRIDE = 3;

const SIXTH = Math.PI / 3;

/**
 * The columns of a standing reach in polar coordinates about a centre: Gauss nodes in direction and along each piece of a
 * direction that has any reach. The ends of the pieces are found first, so no node is wasted outside and
 * none straddles an end. A symmetric layout needs one wedge only. Columns are cut in batches: those of all rays together.
 */
export class PolarReach {
  private readonly directions: Quadrature;
  private readonly probes: number;
  private readonly probed: ColumnBatch;
  /** Top minus bottom at the probes of every ray, in turn [mm]. */
  private readonly gaps: Float64Array;
  private readonly crossings: Crossings;
  private readonly span = new Float64Array(2);
  private readonly rays: Float64Array;
  private rayCount = 0;
  private readonly pieces: Float64Array;
  private pieceCount = 0;
  private centreX = 0;
  private centreY = 0;

  /** @param mostRays left out: those of a whole turn; more for {@link findWithin} a reach with several pieces a direction */
  constructor({ directions, probes }: PolarGrid, mostRays = 6 * directions) {
    this.directions = gaussLegendre(directions);
    this.probes = probes;
    this.probed = columnBatch(mostRays * (probes + 1) + 1);
    this.gaps = new Float64Array(mostRays * (probes + 1));
    this.crossings = new Crossings(mostRays * probes);
    this.rays = new Float64Array(RAY_STRIDE * mostRays);
    // at most every other probe starts a piece
    this.pieces = new Float64Array(PIECE_STRIDE * mostRays * (probes / 2 + 1));
  }

  /** Most pieces that can be found. */
  get mostPieces(): number {
    return this.pieces.length / PIECE_STRIDE;
  }

  /** Finds the pieces of the reach of the loaded legs along directions from (centreX, centreY). */
  find(columns: StandingColumns, symmetry: Symmetry, centreX: number, centreY: number): void {
    this.centreX = centreX;
    this.centreY = centreY;
    this.castRays(columns, symmetry);
    this.findAlongRays(columns);
  }

  /** Finds the pieces of a reach that lies within another one whose pieces are known: only those are searched. */
  findWithin(columns: ColumnCutter, outer: PolarReach): void {
    this.centreX = outer.centreX;
    this.centreY = outer.centreY;
    this.rayCount = outer.pieceCount;
    for (let n = 0; n < outer.pieceCount; n++) {
      const piece = n * PIECE_STRIDE;
      const ray = outer.pieces[piece];
      const i = n * RAY_STRIDE;
      this.rays[i] = outer.rays[ray];
      this.rays[i + 1] = outer.rays[ray + 1];
      this.rays[i + 2] = outer.pieces[piece + 1];
      this.rays[i + 3] = outer.pieces[piece + 2];
      this.rays[i + 4] = outer.rays[ray + 4];
      this.rays[i + 5] = outer.rays[ray + 5];
    }
    this.findAlongRays(columns);
  }

  private findAlongRays(columns: ColumnCutter): void {
    this.probe(columns);
    this.bracketEnds(columns.longest);
    this.crossings.settle(columns, this.rays, this.centreX, this.centreY);
    this.joinPieces();
  }

  /**
   * Adds the columns at the nodes along every piece found, with the areas they stand for.
   * @param rules one for each direction of a sixth of a turn, in turn
   */
  place(rules: readonly Quadrature[], batch: ColumnBatch): void {
    const { rays, pieces, centreX, centreY } = this;
    for (let i = 0; i < this.pieceCount * PIECE_STRIDE; i += PIECE_STRIDE) {
      const ray = pieces[i];
      const { nodes, weights } = rules[rays[ray + 5] % rules.length];
      const from = pieces[i + 1];
      const length = pieces[i + 2] - from;
      for (let n = 0; n < nodes.length; n++) {
        const r = from + nodes[n] * length;
        addColumn(batch, centreX + rays[ray] * r, centreY + rays[ray + 1] * r, rays[ray + 4] * weights[n] * length * r);
      }
    }
  }

  private castRays(columns: StandingColumns, { copies, start }: Symmetry): void {
    const { rays, span } = this;
    const { nodes, weights } = this.directions;
    this.rayCount = 0;
    for (let wedge = 0; wedge < 6 / copies; wedge++) {
      for (let n = 0; n < nodes.length; n++) {
        const angle = start + (wedge + nodes[n]) * SIXTH;
        const ex = Math.cos(angle);
        const ey = Math.sin(angle);
        if (!columns.shadowAlong(this.centreX, this.centreY, ex, ey, span)) continue;
        const i = RAY_STRIDE * this.rayCount++;
        rays[i] = ex;
        rays[i + 1] = ey;
        rays[i + 2] = span[0];
        rays[i + 3] = span[1];
        rays[i + 4] = weights[n] * SIXTH * copies;
        // every other wedge is the mirror image of the one before
        rays[i + 5] = wedge % 2 === 0 ? n : nodes.length - 1 - n;
      }
    }
  }

  /** Cuts the probes of every ray; those that start at the centre share one column there. */
  private probe(columns: ColumnCutter): void {
    const { rays, probed, probes, gaps, centreX, centreY } = this;
    const end = this.rayCount * RAY_STRIDE;
    probed.count = 0;
    addColumn(probed, centreX, centreY, 0);
    for (let i = 0; i < end; i += RAY_STRIDE) {
      for (let n = rays[i + 2] === 0 ? 1 : 0; n <= probes; n++) {
        const r = this.radiusOf(i, n);
        addColumn(probed, centreX + rays[i] * r, centreY + rays[i + 1] * r, 0);
      }
    }
    columns.cut(probed);
    const { top, bottom } = probed;
    let column = 1;
    for (let i = 0, k = 0; i < end; i += RAY_STRIDE) {
      for (let n = 0; n <= probes; n++, k++) {
        const from = n === 0 && rays[i + 2] === 0 ? 0 : column++;
        gaps[k] = top[from] - bottom[from];
      }
    }
  }

  private radiusOf(ray: number, probe: number): number {
    const { rays } = this;
    return rays[ray + 2] + (probe / this.probes) * (rays[ray + 3] - rays[ray + 2]);
  }

  private bracketEnds(longest: number): void {
    const { gaps, probes, crossings } = this;
    crossings.start(longest);
    for (let ray = 0, k = 0; ray < this.rayCount; ray++, k++) {
      for (let n = 0; n < probes; n++, k++) {
        const here = gaps[k];
        const next = gaps[k + 1];
        if (here > 0 === next > 0) continue;
        const i = ray * RAY_STRIDE;
        crossings.add(i, this.radiusOf(i, n), here, this.radiusOf(i, n + 1), next);
      }
    }
  }

  /** From the crossings of each ray in order: where the gap is positive at first, a piece starts with the ray itself. */
  private joinPieces(): void {
    const { rays, gaps, probes, crossings } = this;
    this.pieceCount = 0;
    let crossing = 0;
    for (let ray = 0; ray < this.rayCount; ray++) {
      const i = ray * RAY_STRIDE;
      let inside = gaps[ray * (probes + 1)] > 0;
      let from = rays[i + 2];
      for (; crossing < crossings.count && crossings.ray[crossing] === i; crossing++) {
        const r = crossings.radius[crossing];
        if (inside) this.addPiece(i, from, r);
        inside = !inside;
        from = r;
      }
      if (inside) this.addPiece(i, from, rays[i + 3]);
    }
  }

  private addPiece(ray: number, from: number, to: number): void {
    const i = PIECE_STRIDE * this.pieceCount++;
    this.pieces[i] = ray;
    this.pieces[i + 1] = from;
    this.pieces[i + 2] = to;
  }
}
