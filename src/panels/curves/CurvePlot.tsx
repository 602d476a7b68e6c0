import { type KeyboardEvent, type MouseEvent, memo, useRef } from 'react';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import type { PoseCurve } from '../../reach/field/curves.ts';
import type { QuantityName } from '../../terms/quantities.ts';
import { shownValue } from '../../terms/quantities.ts';
import { CurveDrawing } from './CurveDrawing.tsx';
import { nearestSample, numberScale, type Scale } from './curve-scales.ts';
import {
  numberText,
  numberUnit,
  quantityTitle,
  shownNumber,
  usableText,
  usableWords,
  valueText,
} from './curve-words.ts';
import styles from './curves.module.css';

/** Room around a plot [px]. */
export const PLOT_MARGIN = { top: 17, bottom: 33, right: 9, left: 5 } as const;

/** Room for the numbers of the left axis [px]. */
export const AXIS_ROOM = 38;

/** Base line of the usable range below the plot [px]. */
const RANGE_LINE = 29;

interface CurvePlotProps {
  readonly curve: PoseCurve;
  /** Place in FREEDOMS. */
  readonly index: number;
  readonly quantity: QuantityName;
  readonly y: Scale;
  /** Of the whole picture, margins included [px]. */
  readonly width: number;
  readonly withAxis: boolean;
  /** The present value [mm or rad]. */
  readonly present: number;
  /** Sample pointed at on this curve. */
  readonly pointed: number | null;
  /** Value under which (or over which) a pose does not count as usable, in the shown unit. */
  readonly floor: number | null;
  readonly onPoint: (index: number, sample: number | null) => void;
  readonly onGo: (index: number, sample: number) => void;
}

/** One quantity along one number of the pose; points at poses and goes there. */
export const CurvePlot = memo(function CurvePlot(props: CurvePlotProps) {
  const { curve, index, quantity, y, width, withAxis, present, pointed, floor, onPoint, onGo } = props;
  const left = PLOT_MARGIN.left + (withAxis ? AXIS_ROOM : 0);
  const plotWidth = Math.max(20, width - left - PLOT_MARGIN.right);
  const [height] = y.range();
  const x = numberScale(curve, index, plotWidth);
  const [first, last] = [curve.at[0], curve.at[curve.at.length - 1]];
  const sampleAt = ({ currentTarget, clientX }: MouseEvent<HTMLDivElement>) => {
    const share = (clientX - currentTarget.getBoundingClientRect().left - left) / plotWidth;
    return nearestSample(curve, first + share * (last - first));
  };
  // a page that scrolls under a resting pointer must not end what the keys point at
  const byKey = useRef(false);
  const onKey = (event: KeyboardEvent) => {
    const to = keyTarget(event.key, pointed ?? nearestSample(curve, present), curve.at.length - 1);
    byKey.current = true;
    if (to !== null) onPoint(index, to);
    else if (event.key === 'Enter' && pointed !== null) onGo(index, pointed);
    else if (event.key === 'Escape' && pointed !== null) onPoint(index, null);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const at = pointed === null ? present : curve.at[pointed];
  return (
    <div
      className={styles['plot']}
      role="slider"
      tabIndex={0}
      aria-label={`${quantityTitle(quantity)} along ${FREEDOMS[index]}`}
      aria-description={usableWords(curve, index)}
      aria-valuemin={shownNumber(first, index)}
      aria-valuemax={shownNumber(last, index)}
      aria-valuenow={shownNumber(at, index)}
      aria-valuetext={spoken(curve, index, quantity, at, pointed)}
      onPointerMove={(event) => {
        byKey.current = false;
        onPoint(index, sampleAt(event));
      }}
      onPointerLeave={() => {
        if (pointed !== null && !byKey.current) onPoint(index, null);
      }}
      onClick={(event) => onGo(index, sampleAt(event))}
      onKeyDown={onKey}
      onBlur={() => {
        // another curve may be pointed at by now
        if (pointed !== null) onPoint(index, null);
      }}
    >
      <svg width={width} height={height + PLOT_MARGIN.top + PLOT_MARGIN.bottom} aria-hidden="true">
        <g transform={`translate(${left} ${PLOT_MARGIN.top})`}>
          <text className={styles['name']} y={-5}>
            {FREEDOMS[index]} <tspan>{numberUnit(index)}</tspan>
          </text>
          <CurveDrawing
            curve={curve}
            index={index}
            quantity={quantity}
            x={x}
            y={y}
            plotWidth={plotWidth}
            withAxis={withAxis}
            floor={floor}
          />
          <Present x={x(shownNumber(present, index))} height={height} />
          {pointed === null ? null : (
            <Pointed
              x={x(shownNumber(curve.at[pointed], index))}
              y={y(shownValue(quantity, curve.quantities[quantity]?.[pointed] ?? Number.NaN))}
              height={height}
            />
          )}
          {withAxis ? (
            <text className={styles['range']} x={-AXIS_ROOM} y={height + RANGE_LINE} textAnchor="start">
              usable
            </text>
          ) : null}
          <text
            className={styles['range']}
            data-none={curve.usable === null}
            x={plotWidth / 2}
            y={height + RANGE_LINE}
            textAnchor="middle"
          >
            {usableText(curve, index)}
          </text>
        </g>
      </svg>
    </div>
  );
});

const PAGE = 10;

/** The sample that a key goes to; null for keys that do not move. */
function keyTarget(key: string, from: number, last: number): number | null {
  const targets = new Map([
    ['ArrowRight', from + 1],
    ['ArrowUp', from + 1],
    ['ArrowLeft', from - 1],
    ['ArrowDown', from - 1],
    ['PageUp', from + PAGE],
    ['PageDown', from - PAGE],
    ['Home', 0],
    ['End', last],
  ]);
  const to = targets.get(key);
  return to === undefined ? null : Math.min(last, Math.max(0, to));
}

function spoken(curve: PoseCurve, index: number, quantity: QuantityName, at: number, pointed: number | null): string {
  const place = `${FREEDOMS[index]} ${numberText(at, index)} ${numberUnit(index)}`;
  if (pointed === null) return `${place}, the present pose`;
  const value = curve.quantities[quantity]?.[pointed] ?? Number.NaN;
  const { usable } = curve;
  const inside = usable !== null && at >= usable.low && at <= usable.high;
  return `${place}: ${valueText(quantity, value)}, ${inside ? 'usable' : 'not usable'}`;
}

/** Where the platform stands now. */
const Present = ({ x, height }: { readonly x: number; readonly height: number }) => (
  <g className={styles['present']} transform={`translate(${x} 0)`}>
    <line y2={height} />
    <path d="M0 0l-4 -6h8z" />
  </g>
);

interface PointedProps {
  readonly x: number;
  readonly y: number;
  readonly height: number;
}

const Pointed = ({ x, y, height }: PointedProps) => (
  <g className={styles['pointed']} transform={`translate(${x} 0)`}>
    <line y2={height} />
    {Number.isFinite(y) && y >= 0 && y <= height ? <circle cy={y} r="3.5" /> : null}
  </g>
);
