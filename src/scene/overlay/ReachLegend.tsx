import { useStore } from 'zustand';
import { FIRM_MAGNIFICATION, NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';
import { LIMIT_NAMES, LIMIT_WORDS } from '../../kinematics/limits.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { isFieldColouring, type ReachColouring } from '../../state/session/session-store.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { QUANTITIES } from '../../terms/quantities.ts';
import { firmnessShare, SCALE_END, SCALE_TICKS } from '../colour/firmness-scale.ts';
import { MAPS, mapOf } from '../colour/maps.ts';
import { ColourChoice } from './ColourChoice.tsx';
import { colourBar } from './colour-bar.ts';
import { FieldLegend } from './FieldLegend.tsx';
import { LimitSwatch } from './LimitSwatch.tsx';
import styles from './overlay.module.css';

/** What the colours of the reach mean. `solid`: the reach is drawn in colour, not as a bare outline. */
export function ReachLegend({ solid }: { readonly solid: boolean }) {
  const shown = useStore(sessionStore, ({ reachDrawing, cut }) => reachDrawing !== 'none' || cut.shown) && solid;
  const colouring = useStore(sessionStore, ({ reachColouring }) => reachColouring);
  const floors = useStore(designStore, (state) => Object.keys(liveDocument(state).floors ?? {}).length > 0);
  if (!shown) return null;
  return (
    <figure className={styles['legend']} aria-label={`Colours of the reach: ${spokenColouring(colouring)}`}>
      <ColourChoice />
      {colouring === 'firmness' ? <FirmnessLegend /> : null}
      {colouring === 'limit' ? <LimitLegend /> : null}
      {isFieldColouring(colouring) ? <FieldLegend quantity={colouring} /> : null}
      {floors ? <p className={styles['said']}>Grey strokes: misses a floor.</p> : null}
    </figure>
  );
}

function spokenColouring(colouring: ReachColouring): string {
  if (colouring === 'firmness') return 'error magnification';
  return colouring === 'limit' ? 'limit that binds' : QUANTITIES[colouring].words;
}

const percent = (magnification: number): string => `${(100 * firmnessShare(magnification)).toFixed(1)}%`;

const BAR = colourBar(MAPS[mapOf(null)]);

function FirmnessLegend() {
  return (
    <>
      <p className={styles['said']}>Leg errors magnified at the tool (×)</p>
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
        <span style={{ left: percent(NEARLY_SINGULAR_MAGNIFICATION), right: 0 }}>nearly singular</span>
      </div>
    </>
  );
}

function LimitLegend() {
  return (
    <ul className={styles['classes']}>
      {LIMIT_NAMES.map((limit) => (
        <li key={limit}>
          <LimitSwatch limit={limit} />
          {LIMIT_WORDS[limit]}
        </li>
      ))}
    </ul>
  );
}
