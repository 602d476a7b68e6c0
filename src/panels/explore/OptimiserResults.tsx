import { scaleLinear } from 'd3-scale';
import { SWEEP_VARIABLE_NAMES, SWEEP_VARIABLES } from '../../document/sweep-file.ts';
import { AMOUNTS, betterOf, columnWords } from '../../state/explore/explore-columns.ts';
import {
  layoutLabel,
  presentValues,
  valuesFromDimensions,
  withLayoutOnHoles,
} from '../../state/explore/explore-layout.ts';
import type { OptimiserRun } from '../../state/explore/explore-optimiser.ts';
import { designStore } from '../../state/stores.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import { BottomAxis, LeftAxis } from '../../ui/Axis.tsx';
import { Button } from '../../ui/Button.tsx';
import { Table } from '../../ui/Table.tsx';
import { useSize } from '../../ui/useSize.ts';
import { countText } from '../../words/amounts.ts';
import { figure } from '../../words/numbers.ts';
import { useDesign } from '../design-binding.ts';
import controls from './controls.module.css';
import { useExplore, useOptimiser } from './desk-context.ts';
import { columnNumber } from './explore-numbers.ts';
import { loadDesign } from './load-design.ts';
import { Picture } from './Picture.tsx';
import pictures from './pictures.module.css';
import styles from './place.module.css';

/** How the search went, and the layout it found. */
export function OptimiserResults() {
  const run = useOptimiser((state) => state.run);
  if (!run?.result) {
    return <p className={styles['empty']}>The best layout found, and the way to it, will stand here.</p>;
  }
  return (
    <div className={styles['results']}>
      <Trace run={run} result={run.result} />
      <Found run={run} result={run.result} />
    </div>
  );
}

interface ResultProps {
  readonly run: OptimiserRun;
  readonly result: NonNullable<OptimiserRun['result']>;
}

const MARGIN = { left: 58, right: 16, top: 10, bottom: 38 };

/** Best merit after each round; rounds in which no layout kept the bounds are left out. */
function Trace({ run, result }: ResultProps) {
  const [box, { width, height }] = useSize<HTMLDivElement>();
  const [goal] = run.goals;
  const single = run.goals.length === 1 && goal !== undefined;
  const points = result.trace.flatMap(({ merit, excess }, round) =>
    excess === 0 && Number.isFinite(merit) ? [{ round, value: merit }] : [],
  );
  const outside = result.trace.length - points.length;
  const values = points.map(({ value }) => value);
  const plotWidth = Math.max(20, width - MARGIN.left - MARGIN.right);
  const plotHeight = Math.max(20, height - MARGIN.top - MARGIN.bottom);
  const x = scaleLinear([0, Math.max(1, run.rounds)], [0, plotWidth]);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const y = scaleLinear(high > low ? [low, high] : [low - 1, low + 1], [plotHeight, 0]).nice();
  const state = { running: 'searching', done: 'ended', cancelled: 'cancelled', failed: 'failed', idle: '' }[run.status];
  return (
    <Picture
      title="Way of the search"
      drawing={box}
      controls={
        <span className={controls['count']} role="status">
          {state} after {result.trace.length - 1} rounds and {countText(result.layoutsTried)} layouts
          {run.failure ? `: ${run.failure}` : ''}
        </span>
      }
    >
      <div ref={box} className={pictures['drawing']}>
        {width > 0 && points.length > 0 ? (
          <svg width={width} height={height} role="img" aria-label="Best merit after each round">
            <g transform={`translate(${MARGIN.left} ${MARGIN.top})`}>
              <path
                className={pictures['front']}
                d={`M${points.map(({ round, value }) => `${x(round).toFixed(1)} ${y(value).toFixed(1)}`).join('L')}`}
              />
              <g transform={`translate(0 ${plotHeight})`}>
                <BottomAxis scale={x} title="Round" ticks={plotWidth / 70} />
              </g>
              <LeftAxis scale={y} title="Merit" ticks={plotHeight / 40} />
            </g>
          </svg>
        ) : null}
      </div>
      <p className={pictures['words']}>
        <span>
          Merit: {single ? columnWords(goal.figure).inWords : 'the weighed sum of the goals'}, counted in units of the
          design at the start{single && betterOf(goal.figure) === 'less' ? ', less being better' : ''}.
        </span>
      </p>
      {outside > 0 ? (
        <p className={pictures['words']}>
          {outside === 1 ? 'In one round' : `In ${outside} rounds`} no layout kept all bounds.
        </p>
      ) : null}
    </Picture>
  );
}

function Found({ run, result }: ResultProps) {
  const present = useExplore((state) => state.present?.row ?? null);
  const own = presentValues(useDesign((design) => design));
  const { dimensions, figures, excess } = result.best;
  const values = valuesFromDimensions(dimensions);
  const load = () => loadDesign(withLayoutOnHoles(designStore.getState().document, values), layoutLabel(values));
  return (
    <section className={styles['list']} data-size="small" aria-label="Best layout found">
      <div className={styles['listHeading']}>
        <h3>
          {layoutLabel(values)}
          <span>
            {excess > 0 ? '▲ does not keep all bounds' : run.status === 'running' ? 'best so far' : 'best found'}
          </span>
        </h3>
        <Button onClick={load}>Load</Button>
      </div>
      <div className={styles['scroll']}>
        <Table className={styles['plain']}>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col">found</th>
              <th scope="col">now</th>
            </tr>
          </thead>
          <tbody>
            {SWEEP_VARIABLE_NAMES.map((name) => {
              const value = values[name];
              if (value === undefined) return null;
              const { name: title, unit } = columnWords(SWEEP_VARIABLES[name].dimension);
              return (
                <tr key={name}>
                  <th scope="row">
                    {title} <small>{unit}</small>
                  </th>
                  <td>{figure(value)}</td>
                  <td>{own ? figure(own[name]) : '–'}</td>
                </tr>
              );
            })}
            {AMOUNTS.map((name) => (
              <tr key={name}>
                <th scope="row">
                  {columnWords(name).name} <small>{columnWords(name).unit}</small>
                </th>
                <td>{columnNumber(name, figures[name])}</td>
                <td>{present ? columnNumber(name, present[FIGURE_NAMES.indexOf(name)]) : '–'}</td>
              </tr>
            ))}
          </tbody>
        </Table>
      </div>
    </section>
  );
}
