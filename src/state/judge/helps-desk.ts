import { createStore } from 'zustand/vanilla';
import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { checked } from '../../document/edits/edit.ts';
import type { JudgingService } from '../../jobs/judging-workers.ts';
import { type Help, type HelpCase, type HelpReport, helpPlan } from '../../reach/what-helps.ts';
import { changeDocument, type DesignStore, liveDocument } from '../design/design-store.ts';
import { floorsOf, settingsOf } from '../design/judging-inputs.ts';
import { layoutKey } from '../design/layout-key.ts';
import type { SessionStore } from '../session/session-store.ts';
import { type DesignStep, documentDimensions, stepOf, withDimension } from './helps-edits.ts';

/** What a person wants more or less of. */
export const OBJECTIVES = ['reach', 'usable', 'toolError'] as const;
export type Objective = (typeof OBJECTIVES)[number];

/** Steps offered [mm or deg]. */
export const STEP_SIZES = [1, 2, 5] as const;
export type StepSize = (typeof STEP_SIZES)[number];

export interface HelpsState {
  readonly objective: Objective;
  readonly size: StepSize;
  /** Name of the dimension chosen; its step is shown as a ghost. */
  readonly chosen: string | null;
  /** The last table, and the design it was computed for. */
  readonly finished: { readonly document: DesignDocument; readonly report: HelpReport } | null;
  readonly status: 'idle' | 'running' | 'cancelled' | 'failed';
  /** Of the running work, 0 to 1. */
  readonly share: number;
  readonly failure: string | null;
}

export interface HelpsStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
}

/** Quiet time after which the table is computed anew [ms]. */
export const HELPS_DELAY = 400;

/** What each dimension would do, while somebody looks at it; and steps that can be tried and taken. */
export class HelpsDesk {
  readonly store = createStore<HelpsState>()(() => ({
    objective: 'reach',
    size: 5,
    chosen: null,
    finished: null,
    status: 'idle',
    share: 0,
    failure: null,
  }));
  readonly #stores: HelpsStores;
  readonly #service: JudgingService;
  #turn = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked: { readonly key: string; readonly usable: boolean } | null = null;

  constructor(stores: HelpsStores, service: JudgingService) {
    this.#stores = stores;
    this.#service = service;
  }

  /** Follows the design until the returned function is called. */
  watch(): () => void {
    const follow = () => this.#follow(HELPS_DELAY);
    this.#follow(0);
    const stop = this.#stores.design.subscribe(follow);
    return () => {
      stop();
      clearTimeout(this.#timer);
      this.choose(null);
    };
  }

  setObjective(objective: Objective): void {
    this.store.setState({ objective });
    this.choose(this.store.getState().chosen);
    this.#follow(0);
  }

  setSize(size: StepSize): void {
    this.store.setState({ size });
    this.choose(this.store.getState().chosen);
  }

  /** Shows what a step of a dimension would look like; null: none. */
  choose(name: string | null): void {
    this.store.setState({ chosen: name });
    const step = name === null ? null : this.step(name);
    this.#stores.session.setState({ hovered: step?.document ?? null });
  }

  /** The step of a dimension that helps the objective; null where there is none. */
  step(name: string): DesignStep | null {
    const { finished, objective, size } = this.store.getState();
    const document = liveDocument(this.#stores.design.getState());
    const help = finished?.report.helps.find(({ dimension }) => dimension.name === name);
    const sense = help && finished ? helpfulSense(help, objective, finished.report[objective] ?? 0) : null;
    return sense === null ? null : stepOf(document, name, size, sense);
  }

  /** Makes the chosen step, one that can be undone; returns why the design refuses it, or null. */
  apply(words: string): string | null {
    const { chosen } = this.store.getState();
    const step = chosen === null ? null : this.step(chosen);
    if (!step) return null;
    const result = checked(step.document, liveDocument(this.#stores.design.getState()));
    if (!result.ok) return result.fault;
    this.#stores.session.setState({ hovered: null });
    changeDocument(this.#stores.design, result.value, words);
    this.choose(null);
    return null;
  }

  /** Stops the work; the former table stays. */
  cancel(): void {
    clearTimeout(this.#timer);
    this.#turn += 1;
    this.#service.stop('helps');
    this.store.setState({ status: 'cancelled' });
  }

  /** Computes the table for the present design, whatever was cancelled before. */
  again(): void {
    this.#asked = null;
    this.#follow(0);
  }

  #follow(delay: number): void {
    const document = liveDocument(this.#stores.design.getState());
    const { finished, objective, chosen } = this.store.getState();
    const usable = objective === 'usable';
    const key = layoutKey(document);
    if (this.#asked?.key === key && (this.#asked.usable || !usable)) return;
    if (this.#asked && this.#asked.key !== key && chosen !== null) this.choose(null);
    this.#asked = { key, usable };
    const known = finished && layoutKey(finished.document) === key;
    this.#service.stop('helps');
    const turn = ++this.#turn;
    clearTimeout(this.#timer);
    if (known && (finished.report.usable !== null || !usable)) {
      this.store.setState({ status: 'idle' });
      return;
    }
    this.store.setState({ status: 'running', share: 0, failure: null });
    this.#timer = setTimeout(() => void this.#ask(turn, document, usable), delay);
  }

  async #ask(turn: number, document: DesignDocument, usable: boolean): Promise<void> {
    const question = { plan: helpsPlanOf(document), floors: usable ? floorsOf(document) : null };
    const outcome = await this.#service.helps(question, (share) => {
      if (turn === this.#turn) this.store.setState({ share });
    });
    if (turn !== this.#turn) return;
    if (outcome.kind === 'done')
      this.store.setState({ finished: { document, report: outcome.value }, status: 'idle', share: 1 });
    else if (outcome.kind === 'failed') this.store.setState({ status: 'failed', failure: outcome.reason });
    else this.store.setState({ status: 'cancelled' });
  }
}

/** The effects of one more and of one less of a dimension [figure's unit per mm or rad], positive where the figure grows. */
export function effectsOf(help: Help, objective: Objective): { readonly more: number; readonly less: number } | null {
  const up = help.up[objective];
  const down = help.down[objective];
  return up === null || down === null ? null : { more: up, less: -down };
}

/** How far off such an effect may be; the error at home is computed to rounding. */
export const effectError = ({ sideError }: Help, objective: Objective): number =>
  objective === 'toolError' ? 0 : (sideError[objective] ?? 0);

/** Effects of this share of the largest figure are rounding. */
const ROUNDING = 1e-12;

/** The direction that gives more of what is wanted (reach and usable volume) or less of what is not (error); null: neither does. */
export function helpfulSense(help: Help, objective: Objective, figure: number): 1 | -1 | null {
  const effects = effectsOf(help, objective);
  if (!effects) return null;
  const wanted = objective === 'toolError' ? -1 : 1;
  const [more, less] = [wanted * effects.more, wanted * effects.less];
  const least = Math.max(effectError(help, objective), ROUNDING * figure);
  if (Math.max(more, less) <= least) return null;
  return more >= less ? 1 : -1;
}

/** The designs to difference, each with the settings that its own document gives. */
export function helpsPlanOf(document: DesignDocument) {
  const caseOf = (own: DesignDocument): HelpCase => ({
    spec: compiledDesign(own).mechanism.spec,
    settings: settingsOf(own),
  });
  const dimensions = documentDimensions(document).map((dimension) => ({
    ...dimension,
    caseAt: (value: number) => caseOf(withDimension(document, dimension.name, value)),
  }));
  return helpPlan(caseOf(document), dimensions);
}
