import { useId, useMemo } from 'react';
import { placesOf } from '../../explore/grid.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { columnNumber } from './explore-numbers.ts';
import { blockedPath, cellPath, type HeatGeometry, sharePath } from './heat-geometry.ts';
import type { HeatPlotProps } from './heat-plot-props.ts';
import styles from './pictures.module.css';
import type { Point } from './usePictureDrag.ts';

interface HeatMarksProps extends HeatPlotProps {
  readonly geometry: HeatGeometry;
  readonly box: readonly [Point, Point] | null;
}

/** What is drawn over the cells. */
export function HeatMarks(props: HeatMarksProps) {
  const { geometry, slice, singular, question, box } = props;
  const singularPath = (singular?.lines ?? []).map((line) => sharePath(geometry, line)).join('');
  const clip = `heat-${question.x}-${question.y}`;
  return (
    <>
      <clipPath id={clip}>
        <rect width={geometry.width} height={geometry.height} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
        <Blocked {...props} />
        <path
          className={styles['contour']}
          d={slice.contours.map(({ points }) => cellPath(geometry, points)).join('')}
        />
        <path className={styles['singularGround']} d={singularPath} />
        <path className={styles['singular']} d={singularPath} />
        <ContourNumbers {...props} />
        <SingularWords {...props} />
        <RangeBox {...props} />
        {box ? <Box from={box[0]} to={box[1]} /> : null}
        <PresentMark {...props} />
        <Cursor {...props} />
      </g>
    </>
  );
}

/** Hatches the cells whose layouts cannot be built. */
function Blocked({ geometry, slice }: HeatMarksProps) {
  const hatch = useId();
  const path = useMemo(() => blockedPath(geometry, slice.blocked), [geometry, slice.blocked]);
  if (path === '') return null;
  return (
    <>
      <pattern id={hatch} width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path className={styles['hatchGround']} d="M3.5 0V7" />
        <path className={styles['hatch']} d="M3.5 0V7" />
      </pattern>
      <path d={path} fill={`url(#${hatch})`} />
    </>
  );
}

/** Places along a line at which its number may stand; neighbours begin with another one. */
const NUMBER_PLACES = [0.36, 0.64, 0.5, 0.22, 0.78] as const;

/** Room that a number takes, and the mark of the present design with its word [px]. */
const NUMBER_ROOM = { width: 38, height: 14 } as const;
const PRESENT_ROOM = { width: 56, height: 20 } as const;

interface Taken {
  readonly at: Point;
  readonly room: { readonly width: number; readonly height: number };
}

const isFree = ([x, y]: Point, taken: readonly Taken[]): boolean =>
  taken.every(({ at, room }) => Math.abs(x - at[0]) > room.width || Math.abs(y - at[1]) > room.height);

/** The value of each line of equal figure, once, on its longest piece, where nothing else stands; else it has none. */
function ContourNumbers({ geometry, grid, slice, question, present }: HeatMarksProps) {
  const longest = new Map<number, Float32Array>();
  for (const { value, points } of slice.contours) {
    if (points.length > (longest.get(value)?.length ?? 12)) longest.set(value, points);
  }
  const taken: Taken[] =
    present && isInSlice(grid, question, present)
      ? [{ at: presentPlace(geometry, question, present), room: PRESENT_ROOM }]
      : [];
  return [...longest].map(([value, points], n) => {
    const at = NUMBER_PLACES.map((_, k) =>
      alongLine(geometry, points, NUMBER_PLACES[(n + k) % NUMBER_PLACES.length]),
    ).find((place) => isFree(place, taken));
    if (!at) return null;
    taken.push({ at, room: NUMBER_ROOM });
    return (
      <text key={value} className={styles['level']} x={at[0]} y={at[1]} dy="0.32em" textAnchor="middle">
        {columnNumber(question.figure, value)}
      </text>
    );
  });
}

/** The point of a line in cell units at a share of its length, in pixels. */
function alongLine({ columns, rows, width, height }: HeatGeometry, points: Float32Array, share: number): Point {
  const at = 2 * Math.floor((points.length / 2) * share);
  return [(points[at] / columns) * width, (1 - points[at + 1] / rows) * height];
}

const presentPlace = (
  { x, y }: HeatGeometry,
  question: HeatPlotProps['question'],
  present: NonNullable<HeatPlotProps['present']>,
): Point => [x(present[question.x]), y(present[question.y])];

const NO_LINE = new Float32Array();

function SingularWords({ geometry, singular }: HeatMarksProps) {
  if (singular?.whole) {
    return (
      <text className={styles['note']} x={geometry.width / 2} y={16} textAnchor="middle">
        ✕ all of this plane is singular at home
      </text>
    );
  }
  const line = singular?.lines.reduce((most, next) => (next.length > most.length ? next : most), NO_LINE);
  if (!singular || !line || line.length < 4) return null;
  const middle = 2 * Math.floor(line.length / 4);
  const { columns, rows, width, height } = geometry;
  const at = (n: number): Point => [
    ((0.5 + line[n] * (columns - 1)) / columns) * width,
    (1 - (0.5 + line[n + 1] * (rows - 1)) / rows) * height,
  ];
  const [x, y] = at(middle);
  const [nextX, nextY] = at(Math.min(line.length - 2, middle + 2));
  const angle = (Math.atan2(nextY - y, nextX - x) * 180) / Math.PI;
  const upright = angle > 90 ? angle - 180 : angle < -90 ? angle + 180 : angle;
  return (
    <text
      className={styles['note']}
      transform={`translate(${x} ${y}) rotate(${Number.isFinite(upright) ? upright : 0})`}
      y={-5}
      textAnchor="middle"
    >
      ✕ singular {singular.everywhere ? 'at every pose' : 'at home'}
    </text>
  );
}

function RangeBox({ geometry, question, ranges }: HeatMarksProps) {
  const { [question.x]: x, [question.y]: y } = ranges;
  if (!x && !y) return null;
  const ends = (
    range: readonly [number, number] | undefined,
    scale: HeatGeometry['x'],
    unit: number,
    all: readonly [number, number],
  ): readonly [number, number] => (range ? [scale(range[0] * unit), scale(range[1] * unit)] : all);
  const [left, right] = ends(x, geometry.x, columnWords(question.x).scale, [0, geometry.width]);
  const [bottom, top] = ends(y, geometry.y, columnWords(question.y).scale, [geometry.height, 0]);
  return <Box from={[left, top]} to={[right, bottom]} />;
}

function Box({ from, to }: { readonly from: Point; readonly to: Point }) {
  return (
    <rect
      className={styles['box']}
      x={Math.min(from[0], to[0])}
      y={Math.min(from[1], to[1])}
      width={Math.abs(to[0] - from[0])}
      height={Math.abs(to[1] - from[1])}
    />
  );
}

/** Whether the present design lies in the slice shown: each other dimension has the value at which it is cut, or none nearer. */
export function isInSlice(
  grid: HeatPlotProps['grid'],
  question: HeatPlotProps['question'],
  present: NonNullable<HeatPlotProps['present']>,
): boolean {
  return grid.every(({ name, values }, axis) => {
    if (name === question.x || name === question.y || values.length < 2) return true;
    const step = Math.abs(values[1] - values[0]);
    const value = present[name] / columnWords(name).scale;
    return Math.abs(value - values[question.places[axis]]) <= (0.5 + 1e-9) * step;
  });
}

function PresentMark({ geometry, grid, question, present }: HeatMarksProps) {
  if (!present || !isInSlice(grid, question, present)) return null;
  const [x, y] = presentPlace(geometry, question, present);
  return (
    <g className={styles['present']} transform={`translate(${x} ${y})`}>
      <path d="M0-6L6 0L0 6L-6 0Z" />
      <text x={9} dy="0.32em">
        now
      </text>
    </g>
  );
}

function Cursor({ geometry, grid, question, slice, pointed }: HeatMarksProps) {
  if (pointed === null) return null;
  const places = placesOf(grid, pointed);
  const place = (name: string) => places[grid.findIndex((axis) => axis.name === name)];
  const share = (shown: Uint32Array, at: number) => {
    const last = shown[shown.length - 1];
    return (0.5 + (last > 0 ? (at / last) * (shown.length - 1) : 0)) / shown.length;
  };
  const x = share(slice.xPlaces, place(question.x)) * geometry.width;
  const y = (1 - share(slice.yPlaces, place(question.y))) * geometry.height;
  const here = grid.every(
    ({ name }, axis) => name === question.x || name === question.y || places[axis] === question.places[axis],
  );
  return (
    <g className={styles['cursor']} data-here={here} transform={`translate(${x} ${y})`}>
      <circle r={6} />
      <path d="M-11 0H-6M6 0H11M0-11V-6M0 6V11" />
    </g>
  );
}
