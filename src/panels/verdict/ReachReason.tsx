import { LIMIT_NAMES } from '../../kinematics/limits.ts';
import {
  type BoundaryShares,
  boxFromHome,
  type ReachBox,
  type ReachMeasure,
  reachFromHome,
} from '../../reach/columns/reach-measure.ts';
import { figure, roundedText } from '../../words/numbers.ts';
import { cm3Text, emptyWords, holdWords, islandWords } from '../../words/reach.ts';
import styles from './verdict.module.css';

/** How the reach at one orientation was measured, with its numbers. */
export function ReachReason({ reach }: { readonly reach: ReachMeasure }) {
  const islands = islandWords(reach);
  const box = boxFromHome(reach);
  if (reach.empty) return <p>▲ {emptyWords(reach.empty)}</p>;
  return (
    <>
      {islands === '' ? null : (
        <p>
          {reach.home.reason ? '▲ ' : ''}
          {islands}.
        </p>
      )}
      <dl className={styles['facts']}>
        <dt>Volume</dt>
        <dd>
          <b>{cm3Text(reachFromHome(reach))}</b> ± {figure(reach.errorEstimate * 100)} %: ∫∫ (top − bottom) dx dy over{' '}
          {reach.columns.toLocaleString('en').replaceAll(',', '\u2009')} columns along z
          {reach.symmetric ? ', one sixth of the layout by its symmetry' : ''}
          {reach.settled ? '' : '; stopped before the asked error was reached'}
        </dd>
        <dt>Counted</dt>
        <dd>
          {reach.home.volume > 0
            ? `what is connected with home; with islands, such as the platform below the base, ${cm3Text(reach.volume)}`
            : 'everything, since home is not in it'}
        </dd>
        {box ? <BoxFacts bounds={box} /> : null}
        <dt>Boundary</dt>
        <dd>
          <Shares boundary={reach.boundary} />
          {reach.home.islands > 0 ? 'of all parts together, the islands too' : null}
        </dd>
      </dl>
      <p className={styles['note']}>
        Positions of the tool point with the platform kept at this orientation. Where a column enters and leaves the
        reach is solved, not sampled: each leg allows a shell between two spheres about a − R b, each joint a cone from
        the same point, or several. Legs meeting each other are not judged here. The error estimate holds for some 98 of
        100 layouts.
      </p>
    </>
  );
}

export function BoxFacts({ bounds: { low, high } }: { readonly bounds: ReachBox }) {
  return (
    <>
      <dt>Box</dt>
      <dd>
        {(['x', 'y', 'z'] as const).map((axis, index) => (
          <span key={axis} className={styles['span']}>
            {axis} {roundedText(low[index], 1)} to {roundedText(high[index], 1)} mm
          </span>
        ))}
      </dd>
    </>
  );
}

export function Shares({ boundary }: { readonly boundary: BoundaryShares }) {
  return (
    <ul className={styles['shares']}>
      {LIMIT_NAMES.filter((name) => boundary.byLimit[name] > 0).map((name) => (
        <li key={name}>
          <span>{Math.round(boundary.byLimit[name] * 100)} %</span>
          <i style={{ width: `${boundary.byLimit[name] * 60}px` }} />
          {holdWords(name)}
        </li>
      ))}
    </ul>
  );
}
