import { compiledDesign, homePose } from '../../document/compiled.ts';
import type { ComparedColumn, CompareService } from '../../jobs/compare-service.ts';
import type { JobOutcome } from '../../jobs/outcome.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import { floorsOf, settingsOf } from '../design/judging-inputs.ts';
import type { DialogStore } from '../session/dialog-store.ts';
import type { SessionStore } from '../session/session-store.ts';
import {
  type ComparedDesign,
  type ComparedOutcome,
  type CompareStore,
  comparedDesigns,
  tiltsKey,
  usableKey,
} from './compare-store.ts';

/** Results kept beyond those on screen, so that a design that comes back is not computed again. */
export const MOST_KEPT = 16;

export interface ComparedStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
  readonly dialog: DialogStore;
  readonly compare: CompareStore;
}

/**
 * Has everything computed that a comparison on screen lacks. While only the outlines are drawn over the live design, the live one
 * is left out: its own reach is on screen already.
 */
export function followCompare(stores: ComparedStores, service: CompareService): () => void {
  const { design, session, dialog, compare } = stores;
  const asked = new Map<string, string>();

  const ask = <Value>(
    kind: 'layouts' | 'usables' | 'tilts',
    column: ComparedColumn,
    key: string,
    work: () => Promise<JobOutcome<Value>>,
    keep: (outcome: ComparedOutcome<Value>) => void,
  ): void => {
    const slot = `${kind} ${column}`;
    if (compare.getState()[kind].has(key) || asked.get(slot) === key) return;
    asked.set(slot, key);
    void work().then((outcome) => {
      if (asked.get(slot) === key) asked.delete(slot);
      if (outcome.kind !== 'cancelled') keep(outcome);
    });
  };

  const askFor = (design: ComparedDesign, all: boolean): void => {
    const { letter, document, key } = design;
    const { mechanism } = compiledDesign(document);
    const { spec } = mechanism;
    const question = { spec, R_BP: mechanism.home.R_BP };
    ask(
      'layouts',
      letter,
      key,
      () => service.compared(letter, { ...question, home: homePose(document) }),
      (outcome) => compare.setState(({ layouts }) => ({ layouts: withKept(layouts, key, outcome) })),
    );
    if (!all) return;
    const usable = usableKey(design);
    ask(
      'usables',
      letter,
      usable,
      () => service.comparedUsable(letter, { ...question, settings: settingsOf(document) }, floorsOf(document)),
      (outcome) => compare.setState(({ usables }) => ({ usables: withKept(usables, usable, outcome) })),
    );
    const { tiltRange: tilt, yawRange: yaw } = session.getState();
    const tilted = tiltsKey(key, tilt, yaw);
    ask(
      'tilts',
      letter,
      tilted,
      () => service.comparedTilts(letter, question, { tilt, yaw }),
      (outcome) => compare.setState(({ tilts }) => ({ tilts: withKept(tilts, tilted, outcome) })),
    );
  };

  const follow = (): void => {
    const open = dialog.getState().open.kind === 'compare';
    const { chosen, overlaid } = compare.getState();
    if (!open && !overlaid) return;
    const columns = comparedDesigns(chosen, liveDocument(design.getState()), session.getState().pinned);
    for (const column of columns) {
      if (open || column.source !== 'live') askFor(column, open);
    }
  };
  follow();
  const stops = [design, session, dialog, compare].map((store) => store.subscribe(follow));
  return () => {
    for (const stop of stops) stop();
  };
}

/** A result added as the newest; the oldest go. */
function withKept<Value>(known: ReadonlyMap<string, Value>, key: string, value: Value): ReadonlyMap<string, Value> {
  const entries = [...known].filter(([other]) => other !== key);
  return new Map([...entries.slice(1 - MOST_KEPT), [key, value]]);
}
