import { createStore } from 'zustand/vanilla';
import { DEMO_NAMES, DEMO_TITLES, DEMOS } from '../../document/demos.ts';
import type { DesignDocument, SnapshotDocument } from '../../document/design.ts';
import { snapshotsOf } from '../../document/edits/snapshots.ts';
import { snapshotDesign } from '../../document/snapshots.ts';
import type { ComparedLayout } from '../../jobs/compare-jobs.ts';
import { COMPARED_COLUMNS, type ComparedColumn } from '../../jobs/compare-service.ts';
import type { JobOutcome } from '../../jobs/outcome.ts';
import type { TiltedSummary } from '../../jobs/reach-jobs.ts';
import type { UsableReach } from '../../reach/columns/usable.ts';
import { shownName } from '../../words/shown-name.ts';
import { layoutKey } from '../design/layout-key.ts';

/** What is put into a column. The live and the pinned design are followed; anything else stays as it was when it was chosen. */
export type ComparedChoice =
  | { readonly source: 'live' | 'pinned' }
  | {
      readonly source: 'snapshot' | 'demo' | 'file';
      readonly title: string;
      readonly document: DesignDocument;
    };

/** A finished computation for the comparison. */
export type ComparedOutcome<Value> = Exclude<JobOutcome<Value>, { readonly kind: 'cancelled' }>;

export interface CompareState {
  /** At most as many as there are columns. */
  readonly chosen: readonly ComparedChoice[];
  /** Place in `chosen` of the design that the others are compared with. */
  readonly reference: number;
  /** Whether the compared reaches are drawn as outlines in the view of the platform. */
  readonly overlaid: boolean;
  /** By {@link layoutKey}. */
  readonly layouts: ReadonlyMap<string, ComparedOutcome<ComparedLayout>>;
  /** By {@link usableKey}. */
  readonly usables: ReadonlyMap<string, ComparedOutcome<UsableReach>>;
  /** By {@link tiltsKey}. */
  readonly tilts: ReadonlyMap<string, ComparedOutcome<TiltedSummary>>;
}

/** Designs side by side, at most. */
export const MOST_COMPARED = COMPARED_COLUMNS.length;

export const createCompareStore = () =>
  createStore<CompareState>()(() => ({
    chosen: [],
    reference: 0,
    overlaid: false,
    layouts: new Map(),
    usables: new Map(),
    tilts: new Map(),
  }));

export type CompareStore = ReturnType<typeof createCompareStore>;

/** Key of a reach over a tilt range [rad]. */
export const tiltsKey = (layout: string, tiltRange: number, yawRange: number): string =>
  `${tiltRange} ${yawRange} ${layout}`;

/** Key of what is usable of a design: its layout and its floors. */
export const usableKey = ({ key, document }: Pick<ComparedDesign, 'key' | 'document'>): string =>
  `${JSON.stringify(document.floors ?? {})} ${key}`;

/** One column as it stands. */
export interface ComparedDesign {
  readonly letter: ComparedColumn;
  readonly source: ComparedChoice['source'];
  readonly title: string;
  readonly document: DesignDocument;
  readonly key: string;
}

/** A design as it was last made to carry what another one carries, so that the same question gives the same object. */
const carriers = new WeakMap<DesignDocument, { readonly under: DesignDocument; readonly judged: DesignDocument }>();

/** What decides how good a design is beside the design itself: two under different loads or floors cannot be weighed. */
const BURDENS = ['payload', 'load', 'floors'] as const;

/** A design that carries the payload and load of the open one and keeps its floors. */
export function carrying(document: DesignDocument, live: DesignDocument): DesignDocument {
  if (BURDENS.every((name) => JSON.stringify(document[name]) === JSON.stringify(live[name]))) return document;
  const known = carriers.get(document);
  if (known && BURDENS.every((name) => known.under[name] === live[name])) return known.judged;
  const { payload: _payload, load: _load, floors: _floors, ...bare } = document;
  const { payload, load, floors } = live;
  const judged: DesignDocument = {
    ...bare,
    ...(payload ? { payload } : {}),
    ...(load ? { load } : {}),
    ...(floors ? { floors } : {}),
  };
  carriers.set(document, { under: live, judged });
  return judged;
}

/**
 * The columns of a comparison; a pinned design that is not pinned any more has none. All of them carry what the open design carries
 * and keep its floors: only then one of them can be best.
 */
export function comparedDesigns(
  chosen: readonly ComparedChoice[],
  live: DesignDocument,
  pinned: DesignDocument | null,
): readonly ComparedDesign[] {
  const found = chosen.flatMap((choice): Omit<ComparedDesign, 'letter' | 'key'>[] => {
    if ('document' in choice) return [choice];
    const { source } = choice;
    const document = source === 'live' ? live : pinned;
    return document ? [{ source, title: shownName(document.name), document }] : [];
  });
  return found.slice(0, MOST_COMPARED).map(({ source, title, document }, index) => ({
    letter: COMPARED_COLUMNS[index],
    source,
    title: title === '' ? 'unnamed' : title,
    document: carrying(document, live),
    key: layoutKey(document),
  }));
}

export const snapshotChoice = (snapshot: SnapshotDocument): ComparedChoice => ({
  source: 'snapshot',
  title: shownName(snapshot.name),
  document: snapshotDesign(snapshot),
});

/** What a comparison starts with: the live design, the pinned one and the newest snapshots, or else the demos. */
export function firstChoice(live: DesignDocument, pinned: DesignDocument | null): readonly ComparedChoice[] {
  const snapshots = snapshotsOf(live).toReversed().map(snapshotChoice);
  const others: readonly ComparedChoice[] = [...(pinned ? [{ source: 'pinned' as const }] : []), ...snapshots];
  const demos = DEMO_NAMES.map((name) => ({
    source: 'demo' as const,
    title: DEMO_TITLES[name],
    document: DEMOS[name],
  }));
  const beside = others.length > 0 ? others : demos.filter(({ document }) => layoutKey(document) !== layoutKey(live));
  return [{ source: 'live' as const }, ...beside].slice(0, MOST_COMPARED);
}

/** Puts a design into the next column; does nothing when all are taken. */
export const addCompared = (store: CompareStore, choice: ComparedChoice): void =>
  store.setState(({ chosen }) => (chosen.length < MOST_COMPARED ? { chosen: [...chosen, choice] } : {}));

/** Empties a column; the reference stays with its design, or goes to the first. */
export const removeCompared = (store: CompareStore, index: number): void =>
  store.setState(({ chosen, reference }) => ({
    chosen: chosen.toSpliced(index, 1),
    reference: reference === index ? 0 : reference > index ? reference - 1 : reference,
  }));
