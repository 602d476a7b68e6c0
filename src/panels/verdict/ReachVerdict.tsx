import { useStore } from 'zustand';
import { type ReachMeasure, reachFromHome } from '../../reach/columns/reach-measure.ts';
import type { ReachOrientation } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import { Choice } from '../../ui/Choice.tsx';
import { sentence } from '../../words/firmness.ts';
import { bindingWords, cm3Text, emptyWords, islandWords, litresText } from '../../words/reach.ts';
import { useReach } from '../reach-binding.ts';
import { Cell, type VerdictCellProps } from './Cell.tsx';
import { ReachReason } from './ReachReason.tsx';
import styles from './verdict.module.css';

const useOrientation = (): ReachOrientation => useStore(sessionStore, (state) => state.reachOrientation);

/** How far the tool point reaches with the platform kept at one orientation. */
export function ReachCell(props: VerdictCellProps) {
  const { value, stale, failure } = useReach();
  const orientation = useOrientation();
  const title = orientation === 'home' ? 'Reach, home orientation' : 'Reach, present orientation';
  const alarming = value?.empty !== null || value.home.reason !== null;
  return (
    <Cell
      id="reach"
      title={title}
      stale={stale}
      alarming={value !== null && alarming}
      headline={headline(value, failure)}
      line={value ? lineOf(value) : (failure ?? 'Computing…')}
      {...props}
    />
  );
}

function headline(value: ReachMeasure | null, failure: string | null) {
  if (!value) return failure ? 'Not computed' : '…';
  if (value.empty) return <Marked mark="✕">Nothing is reachable</Marked>;
  return (
    <>
      {cm3Text(reachFromHome(value))} <small>{litresText(reachFromHome(value))}</small>
    </>
  );
}

const Marked = ({ mark, children }: { readonly mark: string; readonly children: string }) => (
  <>
    <span className={styles['mark']} aria-hidden="true">
      {mark}
    </span>
    {children}
  </>
);

function lineOf(value: ReachMeasure): string {
  if (value.empty) return emptyWords(value.empty);
  const islands = islandWords(value);
  const line = sentence(bindingWords(value.boundary));
  if (islands === '') return line;
  // islands do not count, so they come last; a home that breaks limits comes first
  return value.home.reason ? `▲ ${islands}. ${line}` : `${line}. ${islands}`;
}

const ORIENTATIONS = [
  ['home', 'Home'],
  ['present', 'Present'],
] as const;

export function ReachWhy() {
  const { value, failure } = useReach();
  return (
    <>
      <div className={styles['setting']}>
        <Choice
          name="Orientation of the platform for the reach"
          label="Orientation"
          value={useOrientation()}
          options={ORIENTATIONS}
          onChoose={(reachOrientation) => sessionStore.setState({ reachOrientation })}
        />
      </div>
      {failure ? <p>▲ {failure}</p> : null}
      {value ? <ReachReason reach={value} /> : <p>Computing…</p>}
    </>
  );
}
