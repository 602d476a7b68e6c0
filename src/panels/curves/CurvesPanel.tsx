import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { presentPose } from '../../document/compiled.ts';
import { FREEDOMS, withPoseNumber } from '../../kinematics/free-travel.ts';
import type { PoseCurve } from '../../reach/field/curves.ts';
import type { PoseCurves } from '../../reach/field/pose-curves.ts';
import { poseNumbers } from '../../reach/pose-box.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { floorsOf } from '../../state/design/judging-inputs.ts';
import type { CurvesSubject } from '../../state/judge/curves-desk.ts';
import { curvesDesk } from '../../state/judge/judging.ts';
import { designStore, pointedStore, sessionStore } from '../../state/stores.ts';
import { QUANTITIES, type QuantityName, shownValue } from '../../terms/quantities.ts';
import { Select } from '../../ui/Select.tsx';
import { useSize } from '../../ui/useSize.ts';
import { AXIS_ROOM, CurvePlot, PLOT_MARGIN } from './CurvePlot.tsx';
import { CurvesHow } from './CurvesHow.tsx';
import { valueScale, WALL_KINDS, WALL_WORDS } from './curve-scales.ts';
import { numberText, numberUnit, quantityTitle, usableWords, valueText } from './curve-words.ts';
import styles from './curves.module.css';

/** What every quantity does along each number of the pose. */
export function CurvesPanel() {
  useEffect(() => curvesDesk.watch(), []);
  const finished = useStore(curvesDesk.store, ({ curves }) => curves.finished);
  const failure = useStore(curvesDesk.store, ({ curves }) => (curves.working ? null : curves.failure));
  if (failure !== null) return <p className={styles['waiting']}>▲ The curves could not be computed: {failure}</p>;
  if (!finished) return <p className={styles['waiting']}>Computing the curves…</p>;
  return <Curves curves={finished.value} subject={finished.subject} />;
}

/** A sample of one of the six curves. */
interface PointedSample {
  readonly index: number;
  readonly sample: number;
}

function Curves({
  curves: { curves, quantities },
  subject,
}: {
  readonly curves: PoseCurves;
  readonly subject: CurvesSubject;
}) {
  const wanted = useStore(curvesDesk.store, ({ quantity }) => quantity);
  const quantity = quantities.includes(wanted) ? wanted : quantities[0];
  const [held, setHeld] = useState<{ readonly curves: readonly PoseCurve[]; readonly at: PointedSample } | null>(null);
  // samples of former curves stand at other poses
  const pointed = held?.curves === curves ? held.at : null;
  const stale = useStale(subject);
  const actions = useMemo(
    () => ({
      point: (index: number, sample: number | null) => {
        setHeld(sample === null ? null : { curves, at: { index, sample } });
        pointedStore.setState({ pose: sample === null ? null : poseAt(subject, curves, { index, sample }) });
      },
      go: (index: number, sample: number) => {
        setHeld(null);
        pointedStore.setState({ pose: null });
        sessionStore.setState({ pose: poseAt(subject, curves, { index, sample }) });
      },
    }),
    [curves, subject],
  );
  return (
    <div className={styles['panel']} data-stale={stale}>
      <div className={styles['head']}>
        <QuantityChoice quantities={quantities} value={quantity} />
        <p className={styles['said']}>
          {stale ? (
            <em>earlier state, computing…</em>
          ) : pointed ? (
            usableWords(curves[pointed.index], pointed.index)
          ) : (
            ''
          )}
        </p>
        <CurvesHow subject={subject} curves={curves} />
      </div>
      <Plots
        curves={curves}
        quantity={quantity}
        subject={subject}
        pointed={pointed}
        onPoint={actions.point}
        onGo={actions.go}
      />
      <p className={styles['foot']}>
        {pointed ? (
          <Values curves={curves} quantities={quantities} at={pointed} />
        ) : (
          <Legend floors={floorsOf(subject.document).length > 0} />
        )}
      </p>
    </div>
  );
}

const poseAt = ({ pose }: CurvesSubject, curves: readonly PoseCurve[], { index, sample }: PointedSample) =>
  withPoseNumber(pose, index, curves[index].at[sample]);

/** The curves are of another design or pose than what is on screen. */
function useStale({ document, pose }: CurvesSubject): boolean {
  const other = useStore(designStore, (state) => liveDocument(state) !== document);
  const moved = useStore(sessionStore, (session) => presentPose(document, session.pose) !== pose);
  return other || moved;
}

interface QuantityChoiceProps {
  readonly quantities: readonly QuantityName[];
  readonly value: QuantityName;
}

const QuantityChoice = ({ quantities, value }: QuantityChoiceProps) => (
  <Select
    className={styles['select']}
    aria-label="Quantity drawn"
    value={value}
    onChange={(event) => {
      const chosen = quantities.find((quantity) => quantity === event.target.value);
      if (chosen !== undefined) curvesDesk.store.setState({ quantity: chosen });
    }}
  >
    {quantities.map((quantity) => (
      <option key={quantity} value={quantity}>
        {quantityTitle(quantity)}
      </option>
    ))}
  </Select>
);

interface PlotsProps {
  readonly curves: readonly PoseCurve[];
  readonly quantity: QuantityName;
  readonly subject: CurvesSubject;
  readonly pointed: PointedSample | null;
  readonly onPoint: (index: number, sample: number | null) => void;
  readonly onGo: (index: number, sample: number) => void;
}

/** Widths from which six and three plots stand side by side [px]. */
const SIX_WIDTH = 600;
const THREE_WIDTH = 420;

/** Height of the drawing where plots stand in several rows [px]. */
const STACKED_HEIGHT = 124;

function Plots({ curves, quantity, subject, pointed, onPoint, onGo }: PlotsProps) {
  const [frame, size] = useSize<HTMLDivElement>();
  const columns = size.width >= SIX_WIDTH ? 6 : size.width >= THREE_WIDTH ? 3 : 2;
  const height = Math.max(40, (columns === 6 ? size.height : STACKED_HEIGHT) - PLOT_MARGIN.top - PLOT_MARGIN.bottom);
  const y = useMemo(() => valueScale(curves, quantity, height), [curves, quantity, height]);
  const width = Math.floor((size.width - AXIS_ROOM) / columns);
  const present = poseNumbers(subject.pose);
  const floor = useMemo(() => {
    const found = floorsOf(subject.document).find((own) => own.quantity === quantity);
    return found ? shownValue(quantity, found.value) : null;
  }, [subject.document, quantity]);
  return (
    <div ref={frame} className={styles['plots']} data-rows={columns === 6 ? 'one' : 'several'}>
      {size.width > 0
        ? FREEDOMS.map((freedom, index) => {
            const withAxis = index % columns === 0;
            return (
              <CurvePlot
                key={freedom}
                curve={curves[index]}
                index={index}
                quantity={quantity}
                y={y}
                width={withAxis ? width + AXIS_ROOM : width}
                withAxis={withAxis}
                present={present[index]}
                pointed={pointed?.index === index ? pointed.sample : null}
                floor={floor}
                onPoint={onPoint}
                onGo={onGo}
              />
            );
          })
        : null}
    </div>
  );
}

interface ValuesProps {
  readonly curves: readonly PoseCurve[];
  readonly quantities: readonly QuantityName[];
  readonly at: PointedSample;
}

/** Every quantity at the pose pointed at. */
function Values({ curves, quantities, at: { index, sample } }: ValuesProps) {
  const curve = curves[index];
  return (
    <>
      <b>
        {FREEDOMS[index]} {numberText(curve.at[sample], index)} {numberUnit(index)}
      </b>
      {quantities.map((quantity) => (
        <span key={quantity}>
          {QUANTITIES[quantity].short} <b>{valueText(quantity, curve.quantities[quantity]?.[sample] ?? Number.NaN)}</b>
        </span>
      ))}
    </>
  );
}

const Legend = ({ floors }: { readonly floors: boolean }) => (
  <>
    {WALL_KINDS.map((kind) => (
      <span key={kind} className={styles['key']}>
        <svg width="9" height="12" aria-hidden="true">
          <line className={styles['wall']} data-kind={kind} data-ends="true" x1="4.5" x2="4.5" y2="12" />
        </svg>
        {WALL_WORDS[kind]}
      </span>
    ))}
    <span className={styles['key']}>
      <svg width="14" height="12" aria-hidden="true">
        <rect className={styles['outside']} width="14" height="12" />
      </svg>
      not usable from here
    </span>
    {floors ? (
      <span className={styles['key']}>
        <svg width="16" height="12" aria-hidden="true">
          <line className={styles['floor']} x2="16" y1="6" y2="6" />
        </svg>
        floor
      </span>
    ) : null}
    <span>Point or use the arrow keys to see a pose; click or Enter goes there.</span>
  </>
);
