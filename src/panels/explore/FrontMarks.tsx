import type { ScaleLinear } from 'd3-scale';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import styles from './pictures.module.css';
import type { FrontDot, ScatterPlotProps } from './scatter-plot-props.ts';
import type { Point } from './usePictureDrag.ts';

interface FrontMarksProps extends ScatterPlotProps {
  readonly scales: { readonly x: ScaleLinear<number, number>; readonly y: ScaleLinear<number, number> };
  readonly shown: readonly FrontDot[];
  readonly box: readonly [Point, Point] | null;
}

/** The front, its bend, the present design and the layout pointed at, over the cloud of all layouts. */
export function FrontMarks({ x, y, scales, shown, front, present, pointed, box, width, height }: FrontMarksProps) {
  const at = (one: number, other: number): Point => [
    scales.x(one * columnWords(x).scale),
    scales.y(other * columnWords(y).scale),
  ];
  const ofRow = (row: Float64Array): Point => at(row[FIGURE_NAMES.indexOf(x)], row[FIGURE_NAMES.indexOf(y)]);
  const dots = shown.map((dot) => ({ index: dot.index, place: at(dot.x, dot.y) }));
  const line = front?.objectives.length === 2 ? dots.map(({ place }) => place.map((p) => p.toFixed(1)).join(' ')) : [];
  const knee = dots.find(({ index }) => index === front?.knee?.place);
  return (
    <>
      <clipPath id="scatter-plot">
        <rect x={-8} y={-8} width={width + 16} height={height + 16} />
      </clipPath>
      <g clipPath="url(#scatter-plot)">
        {line.length > 1 ? <path className={styles['front']} d={`M${line.join('L')}`} /> : null}
        <path className={styles['dots']} d={dots.map(({ place }) => dotPath(place)).join('')} />
        {knee ? (
          <g className={styles['knee']} transform={`translate(${knee.place[0]} ${knee.place[1]})`}>
            <circle r={7} />
            <text x={9} y={-7}>
              knee
            </text>
          </g>
        ) : null}
        {box ? (
          <rect
            className={styles['box']}
            x={Math.min(box[0][0], box[1][0])}
            y={Math.min(box[0][1], box[1][1])}
            width={Math.abs(box[1][0] - box[0][0])}
            height={Math.abs(box[1][1] - box[0][1])}
          />
        ) : null}
        {present ? (
          <g className={styles['presentInk']} transform={`translate(${ofRow(present).join(' ')})`}>
            <path d="M0-6L6 0L0 6L-6 0Z" />
            <text {...(knee && isBeside(ofRow(present), knee.place) ? LABEL_LEFT : LABEL_RIGHT)} dy="0.32em">
              now
            </text>
          </g>
        ) : null}
        {pointed?.row ? (
          <g className={styles['cursor']} data-here transform={`translate(${ofRow(pointed.row).join(' ')})`}>
            <circle r={6} />
            <path d="M-11 0H-6M6 0H11M0-11V-6M0 6V11" />
          </g>
        ) : null}
      </g>
    </>
  );
}

const LABEL_RIGHT = { x: 9, textAnchor: 'start' } as const;
const LABEL_LEFT = { x: -9, textAnchor: 'end' } as const;

/** A mark at `other` would cover a label to the right of `at`. */
const isBeside = (at: Point, other: Point): boolean =>
  other[0] - at[0] > -12 && other[0] - at[0] < 46 && Math.abs(other[1] - at[1]) < 16;

const DOT = 1.8;

const dotPath = ([x, y]: Point): string =>
  `M${(x - DOT).toFixed(1)} ${y.toFixed(1)}a${DOT} ${DOT} 0 1 0 ${2 * DOT} 0a${DOT} ${DOT} 0 1 0 ${-2 * DOT} 0Z`;
