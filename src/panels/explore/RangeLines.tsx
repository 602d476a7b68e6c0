import { scaleLinear } from 'd3-scale';
import { memo, useMemo } from 'react';
import type { Histogram } from '../../explore/density.ts';
import { dimensionsAt, type Grid } from '../../explore/grid.ts';
import { FIGURE_COUNT, FIGURE_NAMES } from '../../explore/layout-figures.ts';
import { type ColumnName, isDimension } from '../../explore/layout-table.ts';
import type { Front } from '../../jobs/explore-table-jobs.ts';
import { columnWords } from '../../state/explore-columns.ts';
import { changeRange } from '../../state/explore-store.ts';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import styles from './pictures.module.css';
import { usePictureDrag } from './usePictureDrag.ts';

const TOP = 30;
const BOTTOM = 6;

/** Layouts of the front that are drawn as lines at most. */
const MOST_LINES = 120;

interface RangeLinesProps {
  readonly columns: readonly Histogram[];
  readonly width: number;
  readonly height: number;
}

/** A vertical axis a column: how many layouts have which value, and the front's layouts as lines across. */
export function RangeLines({ columns, width, height }: RangeLinesProps) {
  const { explore } = useExploreDesk();
  const grid = useExplore((state) => state.run?.grid ?? null);
  const front = useExplore((state) => state.pictures.front);
  const pointed = useExplore((state) => state.pointed);
  const ranges = useExplore((state) => state.view.ranges);
  const step = width / columns.length;
  const plotHeight = Math.max(20, height - TOP - BOTTOM);
  const axes = useMemo(
    () =>
      columns.map((column, n) => ({
        column,
        x: (n + 0.5) * step,
        y: scaleLinear([column.domain.low, column.domain.high], [plotHeight, 0]).clamp(true),
      })),
    [columns, step, plotHeight],
  );
  const frontLines = useMemo(
    () =>
      grid && front
        ? linesOf(grid, front)
            .map((read) => linePath(axes, read))
            .join('')
        : '',
    [axes, grid, front],
  );
  const across = pointed && grid ? linePath(axes, readerOf(grid, pointed.index, pointed.row)) : '';
  const { box, handlers } = usePictureDrag({
    origin: [0, TOP],
    onHover: noHover,
    onLeave: noHover,
    onClick: ([x]) => {
      const axis = axes[Math.floor(x / step)];
      if (axis) changeRange(explore, axis.column.name, null);
    },
    onBrush: (from, to) => {
      const axis = axes[Math.floor(from[0] / step)];
      if (axis) changeRange(explore, axis.column.name, brushed(axis, from[1], to[1]));
    },
  });
  return (
    <div className={styles['plot']} data-brush="vertical" {...handlers}>
      <svg width={width} height={height} role="img" aria-label="How many layouts have which value, column by column">
        <g transform={`translate(0 ${TOP})`}>
          <path className={styles['frontLines']} d={frontLines} />
          {axes.map((axis) => (
            <g key={axis.column.name} transform={`translate(${axis.x} 0)`}>
              <RangeAxis column={axis.column} height={plotHeight} room={step} />
              <Limits axis={axis} range={ranges[axis.column.name]} room={step} />
            </g>
          ))}
          {box ? (
            <rect
              className={styles['box']}
              x={Math.floor(box[0][0] / step) * step + step * 0.2}
              y={Math.min(box[0][1], box[1][1])}
              width={step * 0.6}
              height={Math.abs(box[1][1] - box[0][1])}
            />
          ) : null}
          <path className={styles['pointedLine']} d={across} />
        </g>
      </svg>
    </div>
  );
}

interface Axis {
  readonly column: Histogram;
  readonly x: number;
  readonly y: { (value: number): number; invert(pixel: number): number };
}

const noHover = (): void => undefined;

/** The range between two pixels; one that goes to an open end lets everything beyond through. */
function brushed({ column, y }: Axis, from: number, to: number): readonly [number, number] {
  const [low, high] = [y.invert(Math.max(from, to)), y.invert(Math.min(from, to))];
  return [low, column.domain.open && high >= column.domain.high ? Number.POSITIVE_INFINITY : high];
}

interface RangeAxisProps {
  readonly column: Histogram;
  readonly height: number;
  readonly room: number;
}

/** One axis: its name, its ends, and the counts of all and of the passing layouts. */
const RangeAxis = memo(function RangeAxis({ column, height, room }: RangeAxisProps) {
  const { short, unit } = columnWords(column.name);
  return (
    <>
      <text className={styles['axisName']} y={-18} textAnchor="middle">
        {short}
      </text>
      <text className={styles['axisUnit']} y={-7} textAnchor="middle">
        {unit}
      </text>
      <path className={styles['allBars']} d={bars(column.known, column.known, height, room)} />
      <path className={styles['passingBars']} d={bars(column.passing, column.known, height, room)} />
      <line className={styles['axisLine']} y2={height} />
      <text className={styles['end']} x={-4} y={9} textAnchor="end">
        {columnNumber(column.name, column.domain.high)}
        {column.domain.open ? '+' : ''}
      </text>
      <text className={styles['end']} x={-4} y={height - 2} textAnchor="end">
        {columnNumber(column.name, column.domain.low)}
      </text>
    </>
  );
});

interface LimitsProps {
  readonly axis: Axis;
  readonly range: readonly [number, number] | undefined;
  readonly room: number;
}

function Limits({ axis, range, room }: LimitsProps) {
  if (!range) return null;
  const top = axis.y(Math.min(range[1], axis.column.domain.high));
  const bottom = axis.y(range[0]);
  const half = room * 0.3;
  return (
    <g className={styles['limits']}>
      <rect x={-half} y={top} width={2 * half} height={Math.max(1, bottom - top)} />
      <path d={`M${-half} ${top}H${half}M${-half} ${bottom}H${half}`} />
    </g>
  );
}

/** Bars to the right of an axis, as long as the square root of their count so that rare values still show. */
function bars(counts: Uint32Array, all: Uint32Array, height: number, room: number): string {
  const most = Math.sqrt(all.reduce((largest, count) => Math.max(largest, count), 1));
  const thick = height / counts.length;
  let path = '';
  counts.forEach((count, bin) => {
    if (count === 0) return;
    const length = Math.max(1, (Math.sqrt(count) / most) * room * 0.42);
    const y = height - (bin + 1) * thick;
    path += `M0 ${y.toFixed(1)}h${length.toFixed(1)}v${thick.toFixed(1)}H0Z`;
  });
  return path;
}

type Read = (name: ColumnName) => number;

/** Reads the columns of one layout of a grid; figures are NaN where they are not known. */
function readerOf(grid: Grid, index: number, row: Float64Array | null): Read {
  const dimensions = dimensionsAt(grid, index);
  return (name) => {
    if (isDimension(name)) return dimensions[name] ?? Number.NaN;
    return row?.[FIGURE_NAMES.indexOf(name)] ?? Number.NaN;
  };
}

function linesOf(grid: Grid, { indices, rows }: Front): readonly Read[] {
  const step = Math.max(1, Math.ceil(indices.length / MOST_LINES));
  return [...indices.keys()]
    .filter((n) => n % step === 0)
    .map((n) => readerOf(grid, indices[n], rows.subarray(n * FIGURE_COUNT, (n + 1) * FIGURE_COUNT)));
}

function linePath(axes: readonly Axis[], read: Read): string {
  let path = '';
  for (const { column, x, y } of axes) {
    const value = read(column.name);
    if (Number.isNaN(value)) continue;
    const at = y(Math.min(value, column.domain.high));
    path += `${path === '' ? 'M' : 'L'}${x.toFixed(1)} ${at.toFixed(1)}`;
  }
  return path;
}
