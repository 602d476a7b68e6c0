import type { Density } from '../../explore/density.ts';
import type { Front } from '../../jobs/explore-table-jobs.ts';
import type { FigureName } from '../../terms/figures.ts';

/** What a scatter shows and whom it tells. */
export interface ScatterPlotProps {
  readonly x: FigureName;
  readonly y: FigureName;
  readonly density: Density;
  readonly front: Front | null;
  /** Figures of the design on screen and of the layout pointed at. */
  readonly present: Float64Array | null;
  readonly pointed: { readonly index: number; readonly row: Float64Array | null } | null;
  readonly width: number;
  readonly height: number;
  readonly onPointNear: (at: readonly [number, number]) => void;
  readonly onPoint: (index: number | null) => void;
  readonly onLoad: (index: number) => void;
  readonly onBrush: (x: readonly [number, number], y: readonly [number, number]) => void;
}

/** A layout of the front where it is drawn: index and both figures, inside units. */
export interface FrontDot {
  readonly index: number;
  readonly x: number;
  readonly y: number;
}
