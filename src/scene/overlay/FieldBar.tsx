import { useId } from 'react';
import { useStore } from 'zustand';
import type { SignLeg } from '../../reach/field/field-cut.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { cutPlace, pictureBox } from '../../state/reach/cut-plane.ts';
import { signWords } from '../../state/reach/sign-words.ts';
import { designStore, fieldStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Select } from '../../ui/Select.tsx';
import styles from './field-bar.module.css';

/** Where the reach is cut open, and whose force changes sign: shown only while one of them is drawn. */
export function FieldBar() {
  const cut = useStore(sessionStore, (session) => session.cut.shown);
  const signs = useStore(sessionStore, (session) => session.signs.shown);
  if (!cut && !signs) return null;
  return (
    <div className={styles['bar']}>
      {cut && <CutControl />}
      {signs && <SignControl />}
    </div>
  );
}

const AXES = [
  [0, 'x'],
  [1, 'y'],
  [2, 'z'],
] as const;

/** Steps of the slider [mm]: what an arrow key moves, and with Page Up and Down ten of them. */
const STEP = 1;

function CutControl() {
  const group = useId();
  const cut = useStore(sessionStore, (session) => session.cut);
  const document = useStore(designStore, liveDocument);
  const place = useStore(sessionStore, (session) => cutPlace(session.cut, document, session.pose));
  const box = useStore(resultsStore, ({ picture }) => picture.finished && pictureBox(picture.finished.value));
  const failure = useStore(fieldStore, (field) => (field.cut.working ? null : field.cut.failure));
  const change = (changed: Partial<typeof cut>) => sessionStore.setState({ cut: { ...cut, ...changed } });
  const low = box ? Math.floor(box[cut.axis]) : 0;
  const high = box ? Math.ceil(box[3 + cut.axis]) : 0;
  const letter = AXES[cut.axis][1];
  const shown = `${letter} = ${place.toFixed(1).replace('-', '−')} mm`;
  return (
    <fieldset className={styles['group']}>
      <legend className="spoken">Cut through the reach</legend>
      <span className={styles['title']} aria-hidden="true">
        Cut at
      </span>
      <span className={styles['axes']}>
        {AXES.map(([axis, name]) => (
          <label key={name}>
            <input
              type="radio"
              name={group}
              aria-label={`Square to ${name}`}
              checked={axis === cut.axis}
              onChange={() => change({ axis, at: null })}
            />
            <span>{name}</span>
          </label>
        ))}
      </span>
      <output className={styles['value']}>{shown}</output>
      <input
        type="range"
        className={styles['slider']}
        aria-label="Position of the cut"
        aria-valuetext={shown}
        min={low}
        max={high}
        step={STEP}
        value={Math.min(high, Math.max(low, place))}
        disabled={box === null}
        onChange={(event) => change({ at: Number(event.target.value) })}
      />
      <Button aria-pressed={cut.at === null} onClick={() => change({ at: cut.at === null ? place : null })}>
        At the tool
      </Button>
      {failure && <p className={styles['note']}>▲ The cut could not be found: {failure}</p>}
    </fieldset>
  );
}

const LEGS: readonly (readonly [SignLeg, string])[] = [
  ['any', 'any leg'],
  ...([1, 2, 3, 4, 5, 6] as const).map((leg) => [leg, `leg ${leg}`] as const),
];

function SignControl() {
  const id = useId();
  const signs = useStore(sessionStore, (session) => session.signs);
  const words = useStore(fieldStore, (field) => signWords(field.signs, signs.leg));
  return (
    <div className={styles['group']}>
      <label className={styles['title']} htmlFor={id}>
        Zero force of
      </label>
      <Select
        id={id}
        value={String(signs.leg)}
        onChange={(event) => {
          const leg = LEGS.find(([value]) => String(value) === event.target.value)?.[0];
          if (leg !== undefined) sessionStore.setState({ signs: { ...signs, leg } });
        }}
      >
        {LEGS.map(([leg, name]) => (
          <option key={leg} value={leg}>
            {name}
          </option>
        ))}
      </Select>
      <span className={styles['note']} role="status">
        {words}
      </span>
    </div>
  );
}
