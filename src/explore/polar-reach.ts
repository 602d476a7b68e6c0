import { gaussLegendre, type Quadrature } from '../math/gauss-legendre.ts';
import type { StandingColumns } from './standing-columns.ts';
import type { Symmetry } from './symmetry.ts';

/** How finely a reach is integrated. */
export interface PolarGrid {
  /** Directions in a sixth of a turn. */
  readonly directions: number;
  /** Columns tried along a direction to find where the reach starts and ends. */
  readonly probes: number;
  /** Columns along each piece of a direction that is within the reach. */
  readonly columns: number;
}

/** Called for every column: its place [mm] and the area it stands for in the whole reach [mm^2]. */
export type ColumnVisitor = (x: number, y: number, area: number) => void;

/** Interpolations toward an end of the reach along a direction: with three a lopsided bracket can still be far off, five settle. */
const EDGE_STEPS = 5;

/**
 * Integrates over the columns of a standing reach in polar coordinates about a centre: Gauss nodes in direction and along
 * each piece of a direction that has any reach. The ends of the pieces are found first, so no node is wasted outside and
 * none straddles an end. A symmetric layout needs one wedge only.
 */
export class PolarReach {
  private readonly directions: Quadrature;
  private readonly along: Quadrature;
  private readonly probes: number;
  private readonly columnsPerPiece: number;

  constructor({ directions, probes, columns }: PolarGrid) {
    this.directions = gaussLegendre(directions);
    this.along = gaussLegendre(columns);
    this.probes = probes;
    this.columnsPerPiece = columns;
  }

  /** Visits every column of the reach of the loaded legs about (centreX, centreY). */
  visit(columns: StandingColumns, symmetry: Symmetry, centreX: number, centreY: number, visitor: ColumnVisitor): void {
    const { nodes, weights } = this.directions;
    const wedges = 6 / symmetry.copies;
    const sixth = Math.PI / 3;
    for (let wedge = 0; wedge < wedges; wedge++) {
      for (let n = 0; n < nodes.length; n++) {
        const angle = symmetry.start + (wedge + nodes[n]) * sixth;
        this.visitRay(columns, centreX, centreY, angle, weights[n] * sixth * symmetry.copies, visitor);
      }
    }
  }

  private visitRay(
    columns: StandingColumns,
    centreX: number,
    centreY: number,
    angle: number,
    arc: number,
    visitor: ColumnVisitor,
  ): void {
    const ex = Math.cos(angle);
    const ey = Math.sin(angle);
    // within every outer sphere's shadow
    let from = 0;
    let to = Number.POSITIVE_INFINITY;
    const longest2 = columns.longest ** 2;
    for (let n = 0; n < columns.count; n++) {
      const dx = centreX - columns.apexX[n];
      const dy = centreY - columns.apexY[n];
      const along = ex * dx + ey * dy;
      const square = along * along - (dx * dx + dy * dy - longest2);
      if (square <= 0) return;
      const root = Math.sqrt(square);
      to = Math.min(to, root - along);
      from = Math.max(from, -root - along);
    }
    if (!(to > from)) return;
    const step = (to - from) / this.probes;
    let pieceStart = Number.NaN;
    let lastR = from;
    let lastGap = columns.gapAt(centreX + ex * from, centreY + ey * from);
    if (lastGap > 0) pieceStart = from;
    for (let probe = 1; probe <= this.probes; probe++) {
      const r = from + probe * step;
      const gap = columns.gapAt(centreX + ex * r, centreY + ey * r);
      if (gap > 0 !== lastGap > 0) {
        const edge = this.edge(columns, centreX, centreY, ex, ey, lastR, lastGap, r, gap);
        if (gap > 0) pieceStart = edge;
        else this.visitPiece(centreX, centreY, ex, ey, pieceStart, edge, arc, visitor);
      }
      lastR = r;
      lastGap = gap;
    }
    if (lastGap > 0) this.visitPiece(centreX, centreY, ex, ey, pieceStart, to, arc, visitor);
  }

  /** Where the gap changes sign between two radii: the Illinois variant of false position. */
  private edge(
    columns: StandingColumns,
    centreX: number,
    centreY: number,
    ex: number,
    ey: number,
    r0: number,
    gap0: number,
    r1: number,
    gap1: number,
  ): number {
    let [a, fa, b, fb] = [r0, gap0, r1, gap1];
    for (let step = 0; step < EDGE_STEPS; step++) {
      const r = (a * fb - b * fa) / (fb - fa);
      const gap = columns.gapAt(centreX + ex * r, centreY + ey * r);
      if (gap > 0 === fb > 0) fa /= 2;
      else {
        a = b;
        fa = fb;
      }
      b = r;
      fb = gap;
      if (fa === fb) break;
    }
    return b;
  }

  private visitPiece(
    centreX: number,
    centreY: number,
    ex: number,
    ey: number,
    from: number,
    to: number,
    arc: number,
    visitor: ColumnVisitor,
  ): void {
    const { nodes, weights } = this.along;
    const span = to - from;
    for (let n = 0; n < this.columnsPerPiece; n++) {
      const r = from + nodes[n] * span;
      visitor(centreX + ex * r, centreY + ey * r, arc * weights[n] * span * r);
    }
  }
}
