import type { ScaleLinear } from 'd3-scale';
import { tickText } from '../words/numbers.ts';
import styles from './axis.module.css';

interface AxisProps {
  readonly scale: ScaleLinear<number, number>;
  readonly title: string;
  readonly ticks: number;
}

const TICK = 4;

/** An axis along the bottom; stands at the plot's lower left corner. */
export function BottomAxis({ scale, title, ticks }: AxisProps) {
  const [from, to] = scale.range();
  const shown = scale.ticks(ticks);
  return (
    <g className={styles['axis']}>
      <line x1={from} x2={to} />
      {shown.map((tick) => (
        <g key={tick} transform={`translate(${scale(tick)} 0)`}>
          <line y2={TICK} />
          <text y={TICK + 10} textAnchor="middle">
            {tickText(tick, shown)}
          </text>
        </g>
      ))}
      <text className={styles['title']} x={(from + to) / 2} y={TICK + 25} textAnchor="middle">
        {title}
      </text>
    </g>
  );
}

/** An axis along the left; stands at the plot's upper left corner. */
export function LeftAxis({ scale, title, ticks }: AxisProps) {
  const [from, to] = scale.range();
  const shown = scale.ticks(ticks);
  return (
    <g className={styles['axis']}>
      <line y1={from} y2={to} />
      {shown.map((tick) => (
        <g key={tick} transform={`translate(0 ${scale(tick)})`}>
          <line x2={-TICK} />
          <text x={-TICK - 3} dy="0.32em" textAnchor="end">
            {tickText(tick, shown)}
          </text>
        </g>
      ))}
      <text className={styles['title']} transform={`translate(-36 ${(from + to) / 2}) rotate(-90)`} textAnchor="middle">
        {title}
      </text>
    </g>
  );
}
