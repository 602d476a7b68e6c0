import { memo, useId, useState } from 'react';
import { FREEDOMS, type Freedom } from '../../kinematics/free-travel.ts';
import { FIRM_MAGNIFICATION, NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';
import { COLUMN_DASHES } from '../../state/compare/column-dashes.ts';
import { Choice } from '../../ui/Choice.tsx';
import { Table } from '../../ui/Table.tsx';
import { useSize } from '../../ui/useSize.ts';
import { sentence } from '../../words/firmness.ts';
import { figure, withMinus } from '../../words/numbers.ts';
import type { ComparedFigures } from './compared-figures.ts';
import {
  type Curve,
  type CurveScales,
  curvePath,
  curveScales,
  curvesOf,
  letterPlace,
  magnificationAt,
} from './curve-shapes.ts';
import styles from './curves.module.css';
import { LeftOut } from './LeftOut.tsx';
import { freedomUnit } from './travel-words.ts';

const HEIGHT = 300;
const MARGIN = { left: 46, right: 12, top: 10, bottom: 42 } as const;

const OPTIONS = FREEDOMS.map((freedom) => [freedom, sentence(freedom)] as const);

/** How firmly each design holds its platform on a straight way through home, as far as its limits let it go. */
export const FirmnessCurves = memo(function FirmnessCurves({
  figures,
}: {
  readonly figures: readonly ComparedFigures[];
}) {
  const [freedom, setFreedom] = useState<Freedom>('yaw');
  const [frame, { width }] = useSize<HTMLDivElement>();
  const index = FREEDOMS.indexOf(freedom);
  const curves = curvesOf(figures, index);
  const title = `${sentence(freedom)} from home, ${freedomUnit(index)}`;
  const scales = curveScales(
    curves,
    Math.max(40, width - MARGIN.left - MARGIN.right),
    HEIGHT - MARGIN.top - MARGIN.bottom,
  );
  return (
    <div className={styles['panel']}>
      <Choice
        name="Number of the pose that changes"
        label="Along"
        value={freedom}
        options={OPTIONS}
        onChoose={setFreedom}
      />
      <div ref={frame} className={styles['frame']} style={{ height: HEIGHT }}>
        {width > 0 && <CurvePicture curves={curves} scales={scales} width={width} title={title} />}
      </div>
      <LeftOut figures={figures} />
      <p className={styles['note']}>
        Magnification of errors in the legs while one number changes and the other five stay at home, within the free
        travel. Sampled: between samples it may be larger. Where a line leaves the top, the layout is as good as
        singular.
      </p>
      <CurveTable curves={curves} scales={scales} title={title} />
    </div>
  );
});

interface CurvePictureProps {
  readonly curves: readonly Curve[];
  readonly scales: CurveScales;
  readonly width: number;
  readonly title: string;
}

function CurvePicture({ curves, scales, width, title }: CurvePictureProps) {
  const { x, y } = scales;
  const right = x.range()[1];
  const bottom = y.range()[0];
  return (
    <svg
      className={styles['picture']}
      width={width}
      height={HEIGHT}
      role="img"
      aria-label={`Magnification against ${title}; the same as a table below`}
    >
      <g transform={`translate(${MARGIN.left} ${MARGIN.top})`}>
        <XAxis scales={scales} title={title} />
        <YAxis scales={scales} />
        <Guide at={y(FIRM_MAGNIFICATION)} right={right} words="firm below" below />
        <Guide at={y(NEARLY_SINGULAR_MAGNIFICATION)} right={right} words="nearly singular above" />
        <line className={styles['home']} x1={x(0)} x2={x(0)} y2={bottom} />
        {curves.map((curve) => (
          <path
            key={curve.letter}
            className={styles['line']}
            data-letter={curve.letter}
            strokeDasharray={COLUMN_DASHES[curve.letter]}
            d={curvePath(curve, scales)}
          />
        ))}
        {curves.map((curve) => (
          <CurveLetter key={curve.letter} curve={curve} scales={scales} />
        ))}
      </g>
    </svg>
  );
}

function CurveLetter({ curve, scales }: { readonly curve: Curve; readonly scales: CurveScales }) {
  const place = letterPlace(curve, scales);
  return place ? (
    <g className={styles['tag']} transform={`translate(${place[0]} ${place[1]})`}>
      <circle r="8" />
      <text>{curve.letter}</text>
    </g>
  ) : null;
}

function XAxis({ scales: { x, y }, title }: { readonly scales: CurveScales; readonly title: string }) {
  const [from, to] = x.range();
  return (
    <g className={styles['axis']} transform={`translate(0 ${y.range()[0]})`}>
      <line x1={from} x2={to} />
      {x.ticks(7).map((tick) => (
        <g key={tick} transform={`translate(${x(tick)} 0)`}>
          <line y2="4" />
          <text y="16" textAnchor="middle">
            {tick > 0 ? `+${tick}` : withMinus(String(tick))}
          </text>
        </g>
      ))}
      <text x={(from + to) / 2} y="33" textAnchor="middle">
        {title}
      </text>
    </g>
  );
}

function YAxis({ scales: { y } }: { readonly scales: CurveScales }) {
  const [low, high] = y.domain();
  const ticks = [0.5, 1, 2, 4, 10, 20, 50, 100].filter((tick) => tick >= low && tick <= high);
  const [bottom, top] = y.range();
  return (
    <g className={styles['axis']}>
      <line y1={bottom} y2={top} />
      {ticks.map((tick) => (
        <g key={tick} transform={`translate(0 ${y(tick)})`}>
          <line x2="-4" />
          <text x="-7" dy="0.32em" textAnchor="end">
            {tick} ×
          </text>
        </g>
      ))}
    </g>
  );
}

interface GuideProps {
  readonly at: number;
  readonly right: number;
  readonly words: string;
  /** The words stand under the line instead of over it. */
  readonly below?: boolean;
}

const Guide = ({ at, right, words, below = false }: GuideProps) => (
  <g className={styles['guide']} transform={`translate(0 ${at})`}>
    <line x2={right} />
    <text x={right} y={below ? 13 : -4} textAnchor="end">
      {words}
    </text>
  </g>
);

interface CurveTableProps {
  readonly curves: readonly Curve[];
  readonly scales: CurveScales;
  readonly title: string;
}

/** The curves in numbers, at the marks of their axis. */
function CurveTable({ curves, scales, title }: CurveTableProps) {
  const id = useId();
  const value = (curve: Curve, offset: number): string => {
    const found = magnificationAt(curve, offset);
    if (found === null) return '–';
    return Number.isFinite(found) ? figure(found) : 'without bound';
  };
  return (
    <details className={styles['details']}>
      <summary id={id}>As a table</summary>
      <Table aria-labelledby={id}>
        <thead>
          <tr>
            <th scope="col">{title}</th>
            {curves.map(({ letter }) => (
              <th key={letter} scope="col">
                {letter}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {scales.x.ticks(9).map((tick) => (
            <tr key={tick}>
              <th scope="row">{withMinus(String(tick))}</th>
              {curves.map((curve) => (
                <td key={curve.letter}>{value(curve, tick)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </Table>
      <p className={styles['note']}>A dash: outside the free travel.</p>
    </details>
  );
}
