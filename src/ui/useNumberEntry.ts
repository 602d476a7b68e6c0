import { type KeyboardEvent, useCallback, useEffect, useRef, useState } from 'react';
import type { FieldUnit } from '../words/units.ts';
import { readNumber, readPlainNumber } from './read-number.ts';
import { keyTarget, type Legal, outsideReason, stoppedAt, type Travel } from './travel.ts';

/** What a number control needs to know about its quantity, and whom it tells about changes. */
export interface NumberEntry {
  readonly value: number;
  readonly unit: FieldUnit;
  /** Digits behind the point that are always shown. */
  readonly decimals: number;
  readonly legal: Legal;
  readonly travel: Travel;
  /** Shows a value at once; returns why it is refused, or null. */
  readonly preview: (value: number) => string | null;
  /** Makes what was last shown one finished change. */
  readonly commit: () => void;
  /** Goes back to the last finished change. */
  readonly restore: () => void;
}

/** A control's answer to moves, typed text and keys. */
export interface EntryState {
  /** What the field shows while a person types; null when it shows the value. */
  readonly text: string | null;
  /** Why the last entry was not taken, one sentence. */
  readonly fault: string | null;
  /** Moves the value without finishing the change; stops at the legal ends and says so. */
  readonly move: (wanted: number) => void;
  /** Finishes a change that was moved; nothing otherwise. */
  readonly finish: () => void;
  readonly type: (text: string) => void;
  /** Takes the typed text as the value. */
  readonly enter: () => void;
  /** Drops typed text and unfinished moves. */
  readonly abandon: () => void;
  /** Moves by a key if it is one that moves numbers. */
  readonly press: (event: KeyboardEvent, fromText: boolean) => void;
}

/** The behaviour that the slider, the field and the step buttons of one number share. */
export function useNumberEntry(entry: NumberEntry): EntryState {
  const latest = useRef(entry);
  latest.current = entry;
  const [text, setText] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const moving = useRef(false);
  const shownText = useRef<string | null>(null);
  shownText.current = text;

  // a value that changes from outside (undo, another control) ends what was being typed
  const ownValue = useRef(entry.value);
  useEffect(() => {
    if (entry.value === ownValue.current) return;
    ownValue.current = entry.value;
    moving.current = false;
    setText(null);
    setFault(null);
  }, [entry.value]);

  const show = useCallback((value: number): boolean => {
    const refusal = latest.current.preview(value);
    if (refusal === null) ownValue.current = value;
    setFault(refusal);
    return refusal === null;
  }, []);

  const move = useCallback(
    (wanted: number) => {
      const { legal, travel, unit, decimals, value } = latest.current;
      const target = stoppedAt(wanted, legal, travel.step);
      setText(null);
      if (target !== value && !show(target)) return;
      if (target !== value) moving.current = true;
      setFault(target === wanted ? null : outsideReason(wanted, legal, unit, decimals));
    },
    [show],
  );

  const finish = useCallback(() => {
    if (!moving.current) return;
    moving.current = false;
    latest.current.commit();
  }, []);

  const abandon = useCallback(() => {
    setText(null);
    setFault(null);
    if (!moving.current) return;
    moving.current = false;
    ownValue.current = Number.NaN;
    latest.current.restore();
  }, []);

  const take = useCallback(
    (value: number) => {
      const { legal, unit, decimals } = latest.current;
      const outside = outsideReason(value, legal, unit, decimals);
      if (outside !== null) {
        setFault(outside);
        return;
      }
      if (value === latest.current.value) setFault(null);
      else if (show(value)) latest.current.commit();
      else return;
      setText(null);
    },
    [show],
  );

  const enter = useCallback(() => {
    const typed = shownText.current;
    if (typed === null) {
      finish();
      return;
    }
    const { unit } = latest.current;
    const plain = readPlainNumber(typed, unit);
    if (plain !== null) {
      take(plain);
      return;
    }
    void readNumber(typed, unit).then((reading) => {
      if (shownText.current !== typed) return;
      if (reading.ok) take(reading.value);
      else setFault(reading.fault);
    });
  }, [finish, take]);

  const type = useCallback((typed: string) => {
    setText(typed);
    setFault(null);
  }, []);

  const press = useCallback(
    (event: KeyboardEvent, fromText: boolean) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      // left and right move the caret in a text field
      if (fromText && (event.key === 'ArrowLeft' || event.key === 'ArrowRight')) return;
      const { value, unit, travel } = latest.current;
      const typed = fromText && shownText.current !== null ? readPlainNumber(shownText.current, unit) : null;
      const target = keyTarget(event.key, event.shiftKey, typed ?? value, travel);
      if (target === null) return;
      event.preventDefault();
      move(target);
    },
    [move],
  );

  return { text, fault, move, finish, type, enter, abandon, press };
}
