import { memo, useId } from 'react';
import type { PoseCurve } from '../../reach/field/curves.ts';
import type { QuantityName } from '../../terms/quantities.ts';
import { LeftAxis } from '../../ui/Axis.tsx';
import { tickText } from '../../words/numbers.ts';
import { curvePath, drawnWalls, fittingTicks, numberAnchor, type Scale, WALL_WORDS } from './curve-scales.ts';
import { numberText, numberUnit, shownNumber } from './curve-words.ts';
import styles from './curves.module.css';

interface CurveDrawingProps {
  readonly curve: PoseCurve;
  /** Place in FREEDOMS. */
  readonly index: number;
  readonly quantity: QuantityName;
  readonly x: Scale;
  readonly y: Scale;
  readonly plotWidth: number;
  readonly withAxis: boolean;
  /** Value under which (or over which) a pose does not count as usable, in the shown unit. */
  readonly floor: number | null;
}

/** The axis of the pose number; numbers at its ends stand inside, for the next picture is close. */
function NumberAxis({ x, width }: { readonly x: Scale; readonly width: number }) {
  const ticks = fittingTicks(x, width);
  return (
    <g className={styles['axis']}>
      <line x2={width} />
      {ticks.map((tick) => (
        <g key={tick} transform={`translate(${x(tick)} 0)`}>
          <line y2="4" />
          <text y="14" textAnchor={numberAnchor(x(tick), width)}>
            {tickText(tick, ticks)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** What does not change while the pointer moves. */
export const CurveDrawing = memo(function CurveDrawing({
  curve,
  index,
  quantity,
  x,
  y,
  withAxis,
  plotWidth,
  floor,
}: CurveDrawingProps) {
  const clip = useId();
  const [height] = y.range();
  const path = curvePath(curve, index, quantity, x, y);
  const { usable } = curve;
  const edge = (value: number) => Math.min(plotWidth, Math.max(0, x(shownNumber(value, index))));
  const low = usable ? edge(usable.low) : plotWidth;
  const high = usable ? edge(usable.high) : plotWidth;
  return (
    <>
      <clipPath id={`${clip}-plot`}>
        <rect width={plotWidth} height={height} />
      </clipPath>
      <clipPath id={`${clip}-usable`}>
        <rect x={low} width={Math.max(0, high - low)} height={height} />
      </clipPath>
      <rect className={styles['outside']} width={low} height={height} />
      <rect className={styles['outside']} x={high} width={plotWidth - high} height={height} />
      <g className={styles['grid']}>
        {y.ticks(4).map((tick) => (
          <line key={tick} x2={plotWidth} y1={y(tick)} y2={y(tick)} />
        ))}
      </g>
      {floor === null ? null : (
        <line className={styles['floor']} x2={plotWidth} y1={y(floor)} y2={y(floor)} clipPath={`url(#${clip}-plot)`} />
      )}
      {drawnWalls(curve, index, x).map((wall) => (
        <line
          key={`${wall.kind} ${wall.x}`}
          className={styles['wall']}
          data-kind={wall.kind}
          data-ends={wall.ends}
          x1={wall.x}
          x2={wall.x}
          y2={height}
        >
          <title>
            {WALL_WORDS[wall.kind]} at {numberText(wall.at, index)} {numberUnit(index)}
          </title>
        </line>
      ))}
      <path className={styles['curve']} data-part="all" d={path} clipPath={`url(#${clip}-plot)`} />
      <path className={styles['curve']} data-part="usable" d={path} clipPath={`url(#${clip}-usable)`} />
      <g transform={`translate(0 ${height})`}>
        <NumberAxis x={x} width={plotWidth} />
      </g>
      {withAxis ? <LeftAxis scale={y} title="" ticks={4} /> : null}
    </>
  );
});
