import { AMOUNTS, columnWords } from '../../state/explore/explore-columns.ts';
import { changeLabel } from '../../state/explore/explore-layout.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import { useDesign } from '../design-binding.ts';
import { useExplore } from './desk-context.ts';
import { columnNumber, columnText } from './explore-numbers.ts';
import { FiguresHow } from './FiguresHow.tsx';
import styles from './place.module.css';

/** The numbers of the layout pointed at beside those of the design on screen. */
export function Readout() {
  const pointed = useExplore((state) => state.pointed);
  const present = useExplore((state) => state.present?.row ?? null);
  const document = useDesign((design) => design);
  return (
    <section className={styles['readout']} aria-label="Layout pointed at">
      <div className={styles['readoutHead']}>
        <h3>
          {pointed ? changeLabel(pointed.values, document) : 'Point at a layout'}
          <span>{pointed && !pointed.row ? 'not measured yet' : ''}</span>
        </h3>
        <FiguresHow />
      </div>
      <dl>
        {AMOUNTS.map((name) => {
          const at = FIGURE_NAMES.indexOf(name);
          const { short, unit } = columnWords(name);
          return (
            <div key={name}>
              <dt>
                {short} <small>{unit}</small>
              </dt>
              <dd>{pointed?.row ? columnNumber(name, pointed.row[at]) : ''}</dd>
              <dd className={styles['now']}>{present ? columnNumber(name, present[at]) : ''}</dd>
            </div>
          );
        })}
      </dl>
      <p className={styles['hint']}>
        Firmness is 1 / magnification. What holds over the reach is sampled, worst figures to a few percent; the tilt
        reach counts tilts toward every direction. The verdict above is finer.
      </p>
      <p className="spoken" role="status">
        {pointed?.row
          ? `${changeLabel(pointed.values, document)}: ${(['reach', 'homeFirmness'] as const)
              .map(
                (name) =>
                  `${columnWords(name).inWords} ${columnText(name, pointed.row?.[FIGURE_NAMES.indexOf(name)] ?? Number.NaN)}`,
              )
              .join(', ')}`
          : ''}
      </p>
    </section>
  );
}
