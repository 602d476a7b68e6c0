import { scaleLinear } from 'd3-scale';
import { memo, useMemo } from 'react';
import type { Histogram } from '../../explore/density.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { changeRange } from '../../state/explore/explore-store.ts';
import { Button } from '../../ui/Button.tsx';
import { acrossPath, frontAcross, lineAcross, nearestLine, type RangeAxis } from './across-lines.ts';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import { followFrontKey } from './front-step.ts';
import styles from './pictures.module.css';
import { type Point, usePictureDrag } from './usePictureDrag.ts';

const TOP = 30;
const BOTTOM = 6;

interface RangeLinesProps {
  readonly columns: readonly Histogram[];
  readonly width: number;
  readonly height: number;
}

/** A vertical axis a column: how many layouts have which value, and the front's layouts as lines across. */
export function RangeLines({ columns, width, height }: RangeLinesProps) {
  const { explore, pointer } = useExploreDesk();
  const grid = useExplore((state) => state.run?.grid ?? null);
  const front = useExplore((state) => state.pictures.front);
  const pointed = useExplore((state) => state.pointed);
  const ranges = useExplore((state) => state.view.ranges);
  const step = width / columns.length;
  const plotHeight = Math.max(20, height - TOP - BOTTOM);
  const axes = useMemo(() => axesOf(columns, step, plotHeight), [columns, step, plotHeight]);
  const lines = useMemo(() => (grid && front ? frontAcross(axes, grid, front) : []), [axes, grid, front]);
  const frontPath = useMemo(() => lines.map((line) => acrossPath(axes, line)).join(''), [axes, lines]);
  const across = pointed && grid ? acrossPath(axes, lineAcross(axes, grid, pointed.index, pointed.row)) : '';
  const onPoint = (index: number | null) => pointer.point(index);
  const onLoad = (index: number) => pointer.load(index);
  const under = (at: Point): number | null => nearestLine(axes, lines, at)?.index ?? null;
  const axisAt = (x: number): RangeAxis | undefined => axes[Math.floor(x / step)];
  const { box, handlers } = usePictureDrag({
    origin: [0, TOP],
    onHover: (at) => onPoint(under(at)),
    onLeave: () => onPoint(null),
    onClick: (at) => {
      const index = under(at);
      const axis = axisAt(at[0]);
      if (index !== null) onLoad(index);
      else if (axis) changeRange(explore, axis.column.name, null);
    },
    onBrush: (from, to) => {
      const axis = axisAt(from[0]);
      if (axis) changeRange(explore, axis.column.name, brushed(axis, from[1], to[1]));
    },
  });
  return (
    <Button
      look="bare"
      className={styles['plot']}
      data-brush="vertical"
      aria-label="How many layouts have which value, column by column. Arrow keys go along the front, Enter loads."
      onKeyDown={(event) => followFrontKey(event, { front, pointed: pointed?.index ?? null, onPoint, onLoad })}
      onBlur={() => onPoint(null)}
      {...handlers}
    >
      <svg width={width} height={height} aria-hidden="true">
        <g transform={`translate(0 ${TOP})`}>
          <path className={styles['frontLines']} d={frontPath} />
          {axes.map((axis) => (
            <g key={axis.column.name} transform={`translate(${axis.x} 0)`}>
              <AxisBars column={axis.column} height={plotHeight} room={step} />
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
    </Button>
  );
}

const axesOf = (columns: readonly Histogram[], step: number, height: number): readonly RangeAxis[] =>
  columns.map((column, n) => ({
    column,
    x: (n + 0.5) * step,
    y: scaleLinear([column.domain.low, column.domain.high], [height, 0]).clamp(true),
  }));

/** The range between two pixels; one that goes to an open end lets everything beyond through. */
function brushed({ column, y }: RangeAxis, from: number, to: number): readonly [number, number] {
  const [low, high] = [y.invert(Math.max(from, to)), y.invert(Math.min(from, to))];
  return [low, column.domain.open && high >= column.domain.high ? Number.POSITIVE_INFINITY : high];
}

interface AxisBarsProps {
  readonly column: Histogram;
  readonly height: number;
  readonly room: number;
}

/** One axis: its name, its ends, and the counts of all and of the passing layouts. */
const AxisBars = memo(function AxisBars({ column, height, room }: AxisBarsProps) {
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
  readonly axis: RangeAxis;
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
