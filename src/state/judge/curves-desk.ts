import { createStore } from 'zustand/vanilla';
import { compiledDesign, presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { JudgingService } from '../../jobs/judging-workers.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import type { PoseCurves } from '../../reach/field/pose-curves.ts';
import type { QuantityName } from '../../terms/quantities.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import { floorsOf, settingsOf } from '../design/judging-inputs.ts';
import { ResultSlot } from '../reach/result-slots.ts';
import type { Outcome } from '../reach/results-store.ts';
import type { PointedStore } from '../session/pointed-store.ts';
import type { SessionStore } from '../session/session-store.ts';

/** What curves were computed for. */
export interface CurvesSubject {
  readonly document: DesignDocument;
  readonly pose: PoseAngles;
}

export interface CurvesState {
  readonly curves: Outcome<PoseCurves, CurvesSubject>;
  /** The quantity drawn. */
  readonly quantity: QuantityName;
}

export interface CurvesStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
  readonly pointed: PointedStore;
}

/** Keeps the curves through the present pose in step with design and pose, while somebody looks at them. */
export class CurvesDesk {
  readonly store = createStore<CurvesState>()(() => ({
    curves: { finished: null, working: false, failure: null },
    quantity: 'condition',
  }));
  readonly #stores: CurvesStores;
  readonly #service: JudgingService;
  readonly #slot: ResultSlot<PoseCurves, CurvesSubject>;
  #asked: CurvesSubject | null = null;

  constructor(stores: CurvesStores, service: JudgingService) {
    this.#stores = stores;
    this.#service = service;
    this.#slot = new ResultSlot(
      () => this.store.getState().curves,
      (curves) => this.store.setState({ curves }),
    );
  }

  /** Follows until the returned function is called. */
  watch(): () => void {
    const follow = () => this.#follow();
    follow();
    const { design, session, pointed } = this.#stores;
    const stops = [design.subscribe(follow), session.subscribe(follow)];
    return () => {
      for (const stop of stops) stop();
      pointed.setState({ pose: null });
    };
  }

  #follow(): void {
    const document = liveDocument(this.#stores.design.getState());
    const pose = presentPose(document, this.#stores.session.getState().pose);
    if (this.#asked?.document === document && this.#asked.pose === pose) return;
    const subject = { document, pose };
    this.#asked = subject;
    const { spec } = compiledDesign(document).mechanism;
    const question = { spec, pose, settings: settingsOf(document), floors: floorsOf(document) };
    this.#slot.await(subject, this.#service.curves(question));
  }
}
