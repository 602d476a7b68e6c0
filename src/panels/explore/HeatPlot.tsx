import { type KeyboardEvent, useLayoutEffect, useMemo, useRef } from 'react';
import { type Grid, indexOf, placesOf } from '../../explore/grid.ts';
import { betterOf, columnWords } from '../../state/explore/explore-columns.ts';
import type { DimensionName } from '../../terms/dimensions.ts';
import { BottomAxis, LeftAxis } from '../../ui/Axis.tsx';
import { Button } from '../../ui/Button.tsx';
import { drawHeat } from './draw-heat.ts';
import { columnTitle } from './explore-numbers.ts';
import { HeatMarks } from './HeatMarks.tsx';
import { cellAt, HEAT_MARGIN, heatGeometry } from './heat-geometry.ts';
import type { HeatPlotProps } from './heat-plot-props.ts';
import { Legend } from './Legend.tsx';
import styles from './pictures.module.css';
import { type Point, usePictureDrag } from './usePictureDrag.ts';

/** One figure over two dimensions: cells, lines of equal figure, the singular line, the present design. */
export function HeatPlot(props: HeatPlotProps) {
  const { grid, question, slice, pointed, width, height, onPoint, onLoad, onBrush } = props;
  const better = betterOf(question.figure);
  const canvas = useRef<HTMLCanvasElement>(null);
  const plotWidth = Math.max(20, width - HEAT_MARGIN.left - HEAT_MARGIN.right);
  const plotHeight = Math.max(20, height - HEAT_MARGIN.top - HEAT_MARGIN.bottom);
  const geometry = useMemo(
    () => heatGeometry(slice, question, grid, plotWidth, plotHeight),
    [slice, question, grid, plotWidth, plotHeight],
  );
  useLayoutEffect(() => {
    if (canvas.current) drawHeat(canvas.current, slice, better);
  }, [slice, better]);

  const axes = { x: axisOf(grid, question.x), y: axisOf(grid, question.y) };
  const indexAt = (column: number, row: number): number => {
    const places = [...question.places];
    places[axes.x] = slice.xPlaces[column];
    places[axes.y] = slice.yPlaces[row];
    return indexOf(grid, places);
  };
  const under = (at: Point): number | null => {
    const cell = cellAt(geometry, at);
    return cell ? indexAt(...cell) : null;
  };
  const { box, handlers } = usePictureDrag({
    origin: [HEAT_MARGIN.left, HEAT_MARGIN.top],
    onHover: (at) => onPoint(under(at)),
    onLeave: () => onPoint(null),
    onClick: (at) => {
      const index = under(at);
      if (index !== null) onLoad(index);
    },
    onBrush: (from, to) =>
      onBrush(
        spanOf(geometry.x, from[0], to[0], columnWords(question.x).scale),
        spanOf(geometry.y, from[1], to[1], columnWords(question.y).scale),
      ),
  });
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && pointed !== null) onLoad(pointed);
    else if (event.key === 'Escape') onPoint(null);
    else {
      const step = ARROWS[event.key];
      if (!step) return;
      const places = placesOf(grid, pointed ?? indexAt(slice.xPlaces.length >> 1, slice.yPlaces.length >> 1));
      const column = moved(slice.xPlaces, places[axes.x], step[0]);
      const row = moved(slice.yPlaces, places[axes.y], step[1]);
      onPoint(indexAt(column, row));
    }
    event.preventDefault();
  };

  return (
    <Button
      look="bare"
      className={styles['plot']}
      aria-label={`${columnTitle(question.figure)} over ${columnTitle(question.x)} and ${columnTitle(question.y)}. Arrow keys move, Enter loads.`}
      onKeyDown={onKeyDown}
      onBlur={() => onPoint(null)}
      {...handlers}
    >
      <canvas
        ref={canvas}
        className={styles['cells']}
        style={{ left: HEAT_MARGIN.left, top: HEAT_MARGIN.top, width: plotWidth, height: plotHeight }}
      />
      <svg width={width} height={height} aria-hidden="true">
        <g transform={`translate(${HEAT_MARGIN.left} ${HEAT_MARGIN.top})`}>
          <HeatMarks {...props} geometry={geometry} box={box} />
          <g transform={`translate(0 ${plotHeight})`}>
            <BottomAxis scale={geometry.x} title={columnTitle(question.x)} ticks={plotWidth / 55} />
          </g>
          <LeftAxis scale={geometry.y} title={columnTitle(question.y)} ticks={plotHeight / 40} />
          {slice.domain ? (
            <g transform={`translate(${plotWidth + 8} 0)`}>
              <Legend
                low={slice.domain.low * columnWords(question.figure).scale}
                high={slice.domain.high * columnWords(question.figure).scale}
                open={slice.domain.open}
                better={better}
                height={plotHeight}
                title={columnTitle(question.figure)}
              />
            </g>
          ) : null}
        </g>
      </svg>
    </Button>
  );
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const axisOf = (grid: Grid, name: DimensionName): number => grid.findIndex((axis) => axis.name === name);

/** The cell next to the one that shows a place, held at the ends. */
function moved(places: Uint32Array, place: number, steps: number): number {
  const beyond = places.findIndex((shown) => shown > place);
  const present = (beyond < 0 ? places.length : beyond) - 1;
  return Math.min(places.length - 1, Math.max(0, present + steps));
}

/** The inside values between two pixels of an axis. */
function spanOf(
  scale: { invert(pixel: number): number },
  from: number,
  to: number,
  unit: number,
): readonly [number, number] {
  const [one, other] = [scale.invert(from) / unit, scale.invert(to) / unit];
  return one < other ? [one, other] : [other, one];
}
