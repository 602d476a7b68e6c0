import { scaleLinear } from 'd3-scale';
import { memo, useId } from 'react';
import type { FreedomLine } from '../../jobs/compare-jobs.ts';
import type { ComparedColumn } from '../../jobs/compare-service.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import { COLUMN_DASHES } from '../../state/compare/column-dashes.ts';
import { Table } from '../../ui/Table.tsx';
import { useSize } from '../../ui/useSize.ts';
import { sentence } from '../../words/firmness.ts';
import { withMinus } from '../../words/numbers.ts';
import { type ComparedFigures, layoutOf } from './compared-figures.ts';
import styles from './curves.module.css';
import { LeftOut } from './LeftOut.tsx';
import { freedomUnit, stopsText, travelFrom, travelText } from './travel-words.ts';

/** Height of one bar, and room between the groups of bars [px]. */
const BAR = 15;
const GAP = 12;
const AXIS = 38;

/** Room for the names at the left and for the last tick at the right [px]. */
const LEFT = 46;
const RIGHT = 16;

interface TravelLine {
  readonly letter: ComparedColumn;
  readonly line: FreedomLine;
}

/** How far each of the six numbers of the pose goes from home before a limit stops it. */
export const FreeTravelBars = memo(function FreeTravelBars({
  figures,
}: {
  readonly figures: readonly ComparedFigures[];
}) {
  const [frame, { width }] = useSize<HTMLDivElement>();
  const lines = (index: number): readonly TravelLine[] =>
    figures.flatMap((column) => {
      const line = layoutOf(column)?.lines?.[index];
      return line ? [{ letter: column.design.letter, line }] : [];
    });
  return (
    <div className={styles['panel']}>
      <div ref={frame} className={styles['frame']}>
        {width > 0 && <Bars indices={[0, 1, 2]} lines={lines} width={width} />}
        {width > 0 && <Bars indices={[3, 4, 5]} lines={lines} width={width} />}
      </div>
      <LeftOut figures={figures.filter((column) => layoutOf(column)?.lines == null)} />
      <p className={styles['note']}>
        One number changes, the other five stay at home. Searched in steps and then by halving: an interruption narrower
        than a step can be missed. An arrow: no limit was found on that side.
      </p>
      <TravelTable lines={lines} />
    </div>
  );
});

interface BarsProps {
  /** Places in FREEDOMS; all of one unit. */
  readonly indices: readonly number[];
  readonly lines: (index: number) => readonly TravelLine[];
  readonly width: number;
}

function Bars({ indices, lines, width }: BarsProps) {
  const groups = indices.map((index) => ({ index, bars: lines(index) }));
  const ends = groups.flatMap(({ index, bars }) => bars.map(({ line }) => travelFrom(line, index)));
  const widest = Math.max(1, ...ends.flatMap(({ down, up }) => [-down, up]));
  const x = scaleLinear([-widest, widest], [0, Math.max(40, width - LEFT - RIGHT)]);
  const rows = Math.max(1, ...groups.map(({ bars }) => bars.length));
  const groupHeight = rows * BAR + GAP;
  const height = groups.length * groupHeight;
  const unit = freedomUnit(indices[0]);
  const names = indices.map((index) => FREEDOMS[index]).join(', ');
  return (
    <svg
      className={styles['picture']}
      width={width}
      height={height + AXIS}
      role="img"
      aria-label={`Free travel from home in ${names}, ${unit}; the same as a table below`}
    >
      <g transform={`translate(${LEFT} 0)`}>
        <line className={styles['home']} x1={x(0)} x2={x(0)} y2={height} />
        {groups.map(({ index, bars }, place) => (
          <g key={index} transform={`translate(0 ${place * groupHeight})`}>
            <text className={styles['name']} x={-LEFT} y={(rows * BAR) / 2 + 4}>
              {sentence(FREEDOMS[index])}
            </text>
            {bars.map(({ letter, line }, row) => {
              const { down, up } = travelFrom(line, index);
              return (
                <g key={letter} className={styles['bar']} transform={`translate(0 ${row * BAR + BAR / 2 + 3})`}>
                  <path
                    className={styles['line']}
                    data-letter={letter}
                    strokeDasharray={COLUMN_DASHES[letter]}
                    d={`M${x(down)} 0 H${x(up)}`}
                  />
                  <path className={styles['end']} d={endPath(x(down), line.down !== null, -1)} />
                  <path className={styles['end']} d={endPath(x(up), line.up !== null, 1)} />
                  <text x={x(0) + 4} y="-2">
                    {letter}
                  </text>
                </g>
              );
            })}
          </g>
        ))}
        <g className={styles['axis']} transform={`translate(0 ${height})`}>
          <line x2={x.range()[1]} />
          {x.ticks(7).map((tick) => (
            <g key={tick} transform={`translate(${x(tick)} 0)`}>
              <line y2="4" />
              <text y="16" textAnchor="middle">
                {tick > 0 ? `+${tick}` : withMinus(String(tick))}
              </text>
            </g>
          ))}
          <text x={x.range()[1] / 2} y="32" textAnchor="middle">
            {unit} from home
          </text>
        </g>
      </g>
    </svg>
  );
}

/** A short cross stroke where a limit stops the number, an arrow head where none was found. */
const endPath = (x: number, stopped: boolean, side: number): string =>
  stopped ? `M${x} -4 V4` : `M${x - 5 * side} -4 L${x} 0 L${x - 5 * side} 4`;

function TravelTable({ lines }: Pick<BarsProps, 'lines'>) {
  const id = useId();
  return (
    <details className={styles['details']}>
      <summary id={id}>As a table, with what stops it</summary>
      <Table aria-labelledby={id}>
        <thead>
          <tr>
            <th scope="col">Number</th>
            <th scope="col">Design</th>
            <th scope="col">From home</th>
            <th scope="col">Stopped by</th>
          </tr>
        </thead>
        <tbody>
          {FREEDOMS.flatMap((freedom, index) =>
            lines(index).map(({ letter, line }) => (
              <tr key={`${freedom} ${letter}`}>
                <th scope="row">{sentence(freedom)}</th>
                <td>{letter}</td>
                <td>
                  {travelText(line, index)} {freedomUnit(index)}
                </td>
                <td>{stopsText(line)}</td>
              </tr>
            )),
          )}
        </tbody>
      </Table>
    </details>
  );
}
