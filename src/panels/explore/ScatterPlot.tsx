import { scaleLinear } from 'd3-scale';
import { useLayoutEffect, useMemo, useRef } from 'react';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import type { Front } from '../../jobs/explore-table-jobs.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { BottomAxis, LeftAxis } from '../../ui/Axis.tsx';
import { Button } from '../../ui/Button.tsx';
import { drawDensity } from './draw-density.ts';
import { columnTitle } from './explore-numbers.ts';
import { FrontMarks } from './FrontMarks.tsx';
import { followFrontKey } from './front-step.ts';
import styles from './pictures.module.css';
import type { FrontDot, ScatterPlotProps } from './scatter-plot-props.ts';
import { type Point, usePictureDrag } from './usePictureDrag.ts';
import { channelsOf, useToken } from './useToken.ts';

const MARGIN = { left: 50, right: 18, top: 8, bottom: 38 } as const;

/** Dots of a front that are drawn at most. */
const MOST_DOTS = 400;

/** All layouts by two figures, the front over them. */
export function ScatterPlot(props: ScatterPlotProps) {
  const { x, y, density, front, pointed, width, height, onPoint, onPointNear, onLoad, onBrush } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const plotWidth = Math.max(20, width - MARGIN.left - MARGIN.right);
  const plotHeight = Math.max(20, height - MARGIN.top - MARGIN.bottom);
  const { xDomain, yDomain } = density;
  const unitX = columnWords(x).scale;
  const unitY = columnWords(y).scale;
  const scales = useMemo(
    () => ({
      x: scaleLinear([xDomain.low * unitX, roomy(xDomain) * unitX], [0, plotWidth]).nice(),
      y: scaleLinear([yDomain.low * unitY, roomy(yDomain) * unitY], [plotHeight, 0]).nice(),
    }),
    [xDomain, yDomain, unitX, unitY, plotWidth, plotHeight],
  );
  const ink = useToken('--ink');
  useLayoutEffect(() => {
    if (canvas.current) drawDensity(canvas.current, density, channelsOf(ink));
  }, [density, ink]);

  // the cloud's own corner inside the rounded axes
  const left = scales.x(xDomain.low * unitX);
  const top = scales.y(roomy(yDomain) * unitY);
  const shown = useMemo(() => (front ? shownOf(front, x, y) : []), [front, x, y]);
  const inside = ([px, py]: Point): readonly [number, number] => [
    scales.x.invert(px) / unitX,
    scales.y.invert(py) / unitY,
  ];
  const { box, handlers } = usePictureDrag({
    origin: [MARGIN.left, MARGIN.top],
    onHover: (at) => onPointNear(inside(at)),
    onLeave: () => onPoint(null),
    onClick: () => {
      if (pointed) onLoad(pointed.index);
    },
    onBrush: (from, to) => {
      const [one, other] = [inside(from), inside(to)];
      onBrush(ordered(one[0], other[0]), ordered(one[1], other[1]));
    },
  });
  return (
    <Button
      look="bare"
      className={styles['plot']}
      aria-label={`${columnTitle(y)} against ${columnTitle(x)}. Arrow keys go along the front, Enter loads.`}
      onKeyDown={(event) => followFrontKey(event, { front, pointed: pointed?.index ?? null, onPoint, onLoad })}
      onBlur={() => onPoint(null)}
      {...handlers}
    >
      <canvas
        ref={canvas}
        className={styles['cloud']}
        style={{
          left: MARGIN.left + left,
          top: MARGIN.top + top,
          width: Math.max(1, scales.x(roomy(xDomain) * unitX) - left),
          height: Math.max(1, scales.y(yDomain.low * unitY) - top),
        }}
      />
      <svg width={width} height={height} aria-hidden="true">
        <g transform={`translate(${MARGIN.left} ${MARGIN.top})`}>
          <FrontMarks {...props} scales={scales} shown={shown} box={box} width={plotWidth} height={plotHeight} />
          <g transform={`translate(0 ${plotHeight})`}>
            <BottomAxis scale={scales.x} title={columnTitle(x)} ticks={plotWidth / 60} />
          </g>
          <LeftAxis scale={scales.y} title={columnTitle(y)} ticks={plotHeight / 40} />
        </g>
      </svg>
    </Button>
  );
}

const roomy = ({ low, high }: { readonly low: number; readonly high: number }): number => (high > low ? high : low + 1);

const ordered = (one: number, other: number): readonly [number, number] => (one < other ? [one, other] : [other, one]);

function shownOf({ indices, rows, knee }: Front, x: FigureName, y: FigureName): readonly FrontDot[] {
  const step = Math.max(1, Math.ceil(indices.length / MOST_DOTS));
  const columnX = FIGURE_NAMES.indexOf(x);
  const columnY = FIGURE_NAMES.indexOf(y);
  const dots: FrontDot[] = [];
  indices.forEach((index, n) => {
    if (n % step !== 0 && n !== indices.length - 1 && index !== knee?.place) return;
    dots.push({ index, x: rows[n * FIGURE_COUNT + columnX], y: rows[n * FIGURE_COUNT + columnY] });
  });
  return dots;
}
