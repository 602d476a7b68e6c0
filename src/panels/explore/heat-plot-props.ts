import type { Grid } from '../../explore/grid.ts';
import type { HeatSlice, SliceQuestion } from '../../explore/heat-slice.ts';
import type { Ranges } from '../../explore/layout-table.ts';
import type { SingularLine } from '../../explore/singular-line.ts';
import type { DimensionName } from '../../terms/dimensions.ts';

/** What a heat map shows and whom it tells. */
export interface HeatPlotProps {
  readonly grid: Grid;
  readonly question: SliceQuestion;
  readonly slice: HeatSlice;
  readonly singular: SingularLine | null;
  /** Shown values of the design on screen by dimension; null when it is no layout of two rings. */
  readonly present: Readonly<Record<DimensionName, number>> | null;
  readonly pointed: number | null;
  readonly ranges: Ranges;
  readonly width: number;
  readonly height: number;
  readonly onPoint: (index: number | null) => void;
  readonly onLoad: (index: number) => void;
  readonly onBrush: (x: readonly [number, number], y: readonly [number, number]) => void;
}
