import { useStore } from 'zustand';
import { endWords } from '../../state/colour/magnitude-colours.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore, fieldStore, resultsStore } from '../../state/stores.ts';
import { QUANTITIES, type QuantityName, shownUnit } from '../../terms/quantities.ts';
import type { FieldScale, ScaleTick } from '../colour/field-scale.ts';
import { MAPS, type MapName, mapOf } from '../colour/maps.ts';
import { scaleOf } from '../model/reach-paint.ts';
import { colourBar } from './colour-bar.ts';
import styles from './overlay.module.css';

const BARS: Readonly<Record<MapName, string>> = {
  less: colourBar(MAPS.less),
  more: colourBar(MAPS.more),
  signed: colourBar(MAPS.signed),
};

/** What the colours of a quantity of the field mean, in its unit. */
export function FieldLegend({ quantity }: { readonly quantity: QuantityName }) {
  const picture = useStore(resultsStore, (results) => results.picture.finished?.value ?? null);
  const { finished, working, failure } = useStore(fieldStore, ({ field }) => field);
  const stiff = useStore(designStore, (state) => liveDocument(state).stiffness !== undefined);
  const known = finished?.value.cloud[quantity] !== undefined;
  const stale = finished?.subject.picture !== picture;
  if (quantity === 'stiffness' && !stiff)
    return <p className={styles['said']}>The design does not say how stiff its legs are: state it under Stiffness.</p>;
  if (failure !== null && !working) return <p className={styles['said']}>▲ It could not be found: {failure}</p>;
  if (!finished || !known) return <p className={styles['said']}>being found…</p>;
  const { ranges, singular } = finished.value;
  if (!ranges[quantity])
    return <p className={styles['said']}>Every pose here is singular: there is no value anywhere.</p>;
  return (
    <>
      <Bar scale={scaleOf(finished.value, quantity)} stale={stale} />
      {singular > 0 ? <p className={styles['said']}>Dotted: singular, no value there.</p> : null}
    </>
  );
}

/** Width of a figure and of the gap between two numbers, as shares of the bar. */
const FIGURE = 0.028;
const GAP = 0.03;

function Bar({ scale, stale }: { readonly scale: FieldScale; readonly stale: boolean }) {
  const shown = withoutCollisions(scale.ticks);
  const unit = shownUnit(scale.quantity);
  const { words, better } = QUANTITIES[scale.quantity];
  const signed = scale.kind === 'signed';
  const [below, above] = signed ? SIDES[scale.quantity === 'leastPush' ? 'push' : 'other'] : endWords(better);
  return (
    <div role="img" aria-label={`Scale of ${words}${unit === '' ? '' : ` in ${unit}`}, ${ends(scale)}`}>
      <div className={styles['bar']} data-stale={stale} style={{ backgroundImage: BARS[mapOf(scale)] }}>
        {shown.map(({ text, share }) => (
          <span key={text} className={styles['tick']} style={{ left: `${(100 * share).toFixed(1)}%` }}>
            {text}
          </span>
        ))}
      </div>
      <div className={styles['words']}>
        <span style={{ left: 0, width: signed ? '50%' : undefined }}>{below}</span>
        <span style={signed ? { left: '50%', width: '50%' } : { right: 0 }}>{above}</span>
      </div>
    </div>
  );
}

/** The ticks whose numbers do not run into each other; the last one, which says where the scale ends, goes before others. */
function withoutCollisions(ticks: readonly ScaleTick[]): readonly ScaleTick[] {
  const apart = (one: ScaleTick, other: ScaleTick) =>
    Math.abs(one.share - other.share) >= (FIGURE * (one.text.length + other.text.length)) / 2 + GAP;
  const last = ticks.at(-1);
  const kept: ScaleTick[] = [];
  for (const tick of ticks) {
    const before = kept.at(-1);
    if (tick !== last && before && !apart(before, tick)) continue;
    if (tick !== last && last && !apart(tick, last)) continue;
    kept.push(tick);
  }
  return kept;
}

/** What lies below and above zero. */
const SIDES = { push: ['some leg pulls', 'every leg pushes'], other: ['bodies meet', 'apart'] } as const;

const ends = ({ ticks }: FieldScale): string => `from ${ticks[0]?.text ?? ''} to ${ticks.at(-1)?.text ?? ''}`;
