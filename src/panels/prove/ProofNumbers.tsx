import { useMemo } from 'react';
import { useStore } from 'zustand';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import { proveDesk } from '../../state/judge/judging.ts';
import { PROOF_DEPTHS } from '../../state/judge/prove-desk.ts';
import { NumberField } from '../../ui/NumberField.tsx';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import type { NumberEntry } from '../../ui/useNumberEntry.ts';
import styles from './prove.module.css';

type Actions = Pick<NumberEntry, 'preview' | 'commit' | 'restore'>;

/** Numbers of the set-up are no part of the design: every change is final at once. */
const actions = (change: (value: number) => void): Actions => ({
  preview: (value) => {
    change(value);
    return null;
  },
  commit: () => undefined,
  restore: () => undefined,
});

const HALF_LENGTH = { min: 0, max: 1_000_000, travel: { min: 0, max: 100, step: 1 } };

/** Angles are enclosed up to a quarter turn either way. */
const HALF_ANGLE = { min: 0, max: 90, travel: { min: 0, max: 90, step: 1 } };

/** The six half ranges. */
export const HalfRanges = () => (
  <fieldset className={styles['halves']}>
    <legend>Half ranges, ±</legend>
    {FREEDOMS.map((freedom, index) => (
      <HalfRange key={freedom} index={index} />
    ))}
  </fieldset>
);

function HalfRange({ index }: { readonly index: number }) {
  const value = useStore(proveDesk.store, ({ setup }) => setup.half[index]);
  const own = useMemo(
    () =>
      actions((wanted) => {
        const { half } = proveDesk.store.getState().setup;
        proveDesk.change({ half: half.map((old, n) => (n === index ? wanted : old)) });
      }),
    [index],
  );
  const range = index < 3 ? HALF_LENGTH : HALF_ANGLE;
  const unit = index < 3 ? 'mm' : 'deg';
  return (
    <span className={styles['half']}>
      <i aria-hidden="true">{FREEDOMS[index]}</i>
      <NumberField
        name={`Half range of ${FREEDOMS[index]}`}
        value={value}
        unit={unit}
        decimals={0}
        legal={range}
        travel={range.travel}
        {...own}
      />
      <small aria-hidden="true">{unit}</small>
    </span>
  );
}

const KEEP_LEGAL = { min: 0, max: 10_000 };
const KEEP_TRAVEL = { min: 0, max: 50, step: 1 };
const KEEP_ACTIONS = actions((keep_mm) => proveDesk.change({ keep_mm }));

/** Distance that bodies must keep. */
export function KeepField() {
  const value = useStore(proveDesk.store, ({ setup }) => setup.keep_mm);
  return (
    <PairedNumber
      name="Distance that bodies keep"
      label="Clear by"
      value={value}
      unit="mm"
      decimals={0}
      legal={KEEP_LEGAL}
      travel={KEEP_TRAVEL}
      {...KEEP_ACTIONS}
    />
  );
}

const DEPTH_LEGAL = { ...PROOF_DEPTHS, whole: true } as const;
const DEPTH_TRAVEL = { ...PROOF_DEPTHS, step: 1 };
const DEPTH_ACTIONS = actions((depth) => proveDesk.change({ depth: Math.round(depth) }));

/** How often a part of the box may be halved. */
export function DepthNumber() {
  const value = useStore(proveDesk.store, ({ setup }) => setup.depth);
  return (
    <PairedNumber
      name="Depth of the proof, halvings"
      label="Depth"
      value={value}
      unit=""
      decimals={0}
      legal={DEPTH_LEGAL}
      travel={DEPTH_TRAVEL}
      {...DEPTH_ACTIONS}
    />
  );
}
