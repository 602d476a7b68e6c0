import { useStore } from 'zustand';
import { FIRM_MAGNIFICATION, NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';
import { LIMIT_NAMES, LIMIT_WORDS } from '../../kinematics/limits.ts';
import { sessionStore } from '../../state/stores.ts';
import { cividis } from '../colour/cividis.ts';
import { firmnessShare, SCALE_END, SCALE_TICKS } from '../colour/firmness-scale.ts';
import { LimitSwatch } from './LimitSwatch.tsx';
import styles from './overlay.module.css';

/** What the colours of the reach mean. `solid`: the reach is drawn in colour, not as a bare outline. */
export function ReachLegend({ solid }: { readonly solid: boolean }) {
  const shown = useStore(sessionStore, ({ reachDrawing }) => reachDrawing !== 'none') && solid;
  const colouring = useStore(sessionStore, ({ reachColouring }) => reachColouring);
  if (!shown) return null;
  return colouring === 'firmness' ? <FirmnessLegend /> : <LimitLegend />;
}

const percent = (magnification: number): string => `${(100 * firmnessShare(magnification)).toFixed(1)}%`;

/** Colour stops of the bar, every twentieth. */
const BAR = `linear-gradient(to right, ${Array.from({ length: 21 }, (_, i) => cividis(i / 20)).join(', ')})`;

function FirmnessLegend() {
  return (
    <figure className={styles['legend']} aria-label="Colours of the reach: error magnification">
      <figcaption>Magnification of leg errors at the tool (×)</figcaption>
      <div className={styles['bar']} style={{ backgroundImage: BAR }}>
        {SCALE_TICKS.map((tick) => (
          <span key={tick} className={styles['tick']} style={{ left: percent(tick) }}>
            {tick === SCALE_END ? `${tick}+` : tick}
          </span>
        ))}
      </div>
      <div className={styles['words']} aria-hidden="true">
        <span style={{ width: percent(FIRM_MAGNIFICATION) }}>firm</span>
        <span
          style={{ left: percent(FIRM_MAGNIFICATION), right: `calc(100% - ${percent(NEARLY_SINGULAR_MAGNIFICATION)})` }}
        >
          soft
        </span>
        <span style={{ left: percent(NEARLY_SINGULAR_MAGNIFICATION), right: 0 }}>near singular</span>
      </div>
    </figure>
  );
}

function LimitLegend() {
  return (
    <figure className={styles['legend']} aria-label="Colours of the reach: limit that binds">
      <figcaption>Limit that stops it there</figcaption>
      <ul className={styles['classes']}>
        {LIMIT_NAMES.map((limit) => (
          <li key={limit}>
            <LimitSwatch limit={limit} />
            {LIMIT_WORDS[limit]}
          </li>
        ))}
      </ul>
    </figure>
  );
}
