import { scaleLinear } from 'd3-scale';
import { useId } from 'react';
import { type Better, endWords } from '../../state/colour/magnitude-colours.ts';
import axis from '../../ui/axis.module.css';
import { tickText } from '../../words/numbers.ts';
import { heatStops } from './heat-colours.ts';
import styles from './pictures.module.css';

interface LegendProps {
  /** Ends of the scale in the shown unit. */
  readonly low: number;
  readonly high: number;
  readonly height: number;
  /** What the colours stand for, with its unit. */
  readonly title: string;
  /** Values above the upper end have its colour. */
  readonly open: boolean;
  readonly better: Better;
}

const STOPS = 9;

/** The colour scale with its numbers. */
export function Legend({ low, high, height, title, open, better }: LegendProps) {
  const gradient = useId();
  const [below, above] = endWords(better);
  const scale = scaleLinear([low, high], [height, 0]);
  const ticks = scale.ticks(5);
  return (
    <g className={axis['axis']}>
      <defs>
        <linearGradient id={gradient} x1="0" x2="0" y1="1" y2="0">
          {heatStops(STOPS, better).map((colour, n) => (
            <stop key={colour} offset={n / (STOPS - 1)} stopColor={colour} />
          ))}
        </linearGradient>
      </defs>
      <rect width={9} height={height} fill={`url(#${gradient})`} />
      {ticks.map((tick) => (
        <g key={tick} transform={`translate(9 ${scale(tick)})`}>
          <line x2={3} />
          <text x={5} dy="0.32em">
            {tickText(tick, ticks)}
            {open && tick === ticks.at(-1) ? '+' : ''}
          </text>
        </g>
      ))}
      <g transform="translate(48 0) rotate(-90)">
        <text x={-height}>{below}</text>
        <text className={styles['title']} x={-height / 2} textAnchor="middle">
          {title}
        </text>
        <text textAnchor="end">{above}</text>
      </g>
    </g>
  );
}
