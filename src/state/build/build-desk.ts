import { createStore } from 'zustand/vanilla';
import { type BuildChoices, firstChoices } from '../../build/choices.ts';
import type { BuildFile } from '../../build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../../build/exporters.ts';
import { type BuildOrder, SIDES } from '../../build/parts.ts';
import { designToBuild } from '../../document/build-design.ts';
import { presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { BuildPreview } from '../../jobs/build-jobs.ts';
import type { BuildService } from '../../jobs/build-workers.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { poseFromAngles } from '../../kinematics/pose.ts';
import { namesOf } from '../../math/record.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import type { SessionStore } from '../session/session-store.ts';

/** The plates that are written. */
export type Sides = 'both' | PlateName;

/** What is being saved, or was saved last. */
export interface Saving {
  readonly status: 'running' | 'done' | 'cancelled' | 'failed';
  /** 0 to 1 */
  readonly share: number;
  /** Name of the file, or why there is none. */
  readonly words: string;
  readonly warnings: readonly string[];
}

export interface BuildState {
  readonly ticked: ReadonlySet<ExporterId>;
  readonly sides: Sides;
  /** What was chosen; the rest follows from the design. */
  readonly chosen: Partial<BuildChoices>;
  /** What stands now. */
  readonly choices: BuildChoices;
  readonly preview: BuildPreview | null;
  readonly failure: string | null;
  /** Which of the sheets, or the tables, are in view. */
  readonly view: number | 'tables';
  readonly saving: Saving | null;
}

export interface BuildStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
}

/** What is ticked before anyone chooses: what every workshop needs. */
const FIRST_TICKED: readonly ExporterId[] = ['dxf', 'pdf', 'csv'];

/** Formats that are ticked one by one; a zip is made of them by itself. */
export const TICKABLE: readonly ExporterId[] = namesOf(EXPORTERS).filter((id) => id !== 'zip');

/** What leaves the program: the choices, what is shown of it, and saving it. */
export class BuildDesk {
  readonly store;
  readonly #stores: BuildStores;
  readonly #service: BuildService;
  readonly #program: string;
  readonly #today: () => string;

  /** @param today the present day as YYYY-MM-DD */
  constructor(stores: BuildStores, service: BuildService, program: string, today: () => string) {
    this.#stores = stores;
    this.#service = service;
    this.#program = program;
    this.#today = today;
    this.store = createStore<BuildState>()(() => ({
      ticked: new Set(FIRST_TICKED),
      sides: 'both',
      chosen: {},
      choices: firstChoices(designToBuild(liveDocument(stores.design.getState())).mechanism),
      preview: null,
      failure: null,
      view: 0,
      saving: null,
    }));
  }

  /** Draws the sheets anew whenever the design changes; returns what ends that. */
  follow(): () => void {
    let last: DesignDocument | null = null;
    const look = () => {
      const document = liveDocument(this.#stores.design.getState());
      if (document === last) return;
      last = document;
      void this.#draw();
    };
    look();
    return this.#stores.design.subscribe(look);
  }

  tick(id: ExporterId, on: boolean): void {
    this.store.setState(({ ticked }) => {
      const next = new Set(ticked);
      if (on) next.add(id);
      else next.delete(id);
      return { ticked: next };
    });
  }

  setSides(sides: Sides): void {
    this.store.setState({ sides });
  }

  look(view: number | 'tables'): void {
    this.store.setState({ view });
  }

  choose(change: Partial<BuildChoices>): void {
    this.store.setState(({ chosen }) => ({ chosen: { ...chosen, ...change } }));
    void this.#draw();
  }

  /** Writes what is ticked and gives the one file that is to be saved; null when it was stopped or failed, which is then on screen. */
  async write(): Promise<BuildFile | null> {
    const { ticked, sides } = this.store.getState();
    const what = TICKABLE.filter((id) => ticked.has(id));
    const show = (saving: Saving) => this.store.setState({ saving });
    show({ status: 'running', share: 0, words: '', warnings: [] });
    const question = { ...this.#question(), what, sides: sides === 'both' ? SIDES : [sides] };
    const outcome = await this.#service.save(question, (share) =>
      show({ status: 'running', share, words: '', warnings: [] }),
    );
    if (outcome.kind === 'done') {
      const { file, warnings } = outcome.value;
      show({ status: 'done', share: 1, words: file.name, warnings });
      return file;
    }
    if (outcome.kind === 'failed') show({ status: 'failed', share: 0, words: outcome.reason, warnings: [] });
    else show({ status: 'cancelled', share: 0, words: '', warnings: [] });
    return null;
  }

  cancel(): void {
    this.#service.stopSaving();
  }

  async #draw(): Promise<void> {
    const question = this.#question();
    this.store.setState({ choices: question.order.choices });
    const outcome = await this.#service.preview(question);
    if (outcome.kind === 'done') {
      const sheets = outcome.value.sheets.length;
      this.store.setState(({ view }) => ({
        preview: outcome.value,
        failure: null,
        view: view === 'tables' ? view : Math.min(view, sheets - 1),
      }));
    } else if (outcome.kind === 'failed') this.store.setState({ failure: outcome.reason });
  }

  #question() {
    const document = liveDocument(this.#stores.design.getState());
    const design = designToBuild(document);
    const { pose } = this.#stores.session.getState();
    const order: BuildOrder = {
      choices: { ...firstChoices(design.mechanism), ...this.store.getState().chosen },
      date: this.#today(),
      program: this.#program,
      poses: pose ? [{ name: 'present pose', pose: poseFromAngles(presentPose(document, pose)) }] : [],
    };
    return { design, order };
  }
}
