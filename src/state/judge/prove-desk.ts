import { createStore } from 'zustand/vanilla';
import { compiledDesign, homePose, inputsOf, presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { JudgingService } from '../../jobs/judging-workers.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import type { PoseBox } from '../../reach/pose-box.ts';
import { type BoxDecision, DEFAULT_PROOF_BOXES, DEFAULT_PROOF_DEPTH } from '../../reach/prove/prove.ts';
import type { Question } from '../../reach/prove/prove-claims.ts';
import { PROOF_QUESTIONS } from '../../reach/prove/prove-claims.ts';
import { radians } from '../../terms/units.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import type { SessionStore } from '../session/session-store.ts';

/** What a person asks of a box, as it stands in the panel. */
export interface ProofSetup {
  /** Half ranges of x, y, z [mm] and roll, pitch, yaw [deg]. */
  readonly half: readonly number[];
  /** The pose in the middle of the box. */
  readonly around: 'home' | 'present';
  readonly asked: readonly Question[];
  /** Distance that bodies must keep [mm]. */
  readonly keep_mm: number;
  /** Halvings allowed for any part of the box. */
  readonly depth: number;
}

/** What a proof was about; an answer for anything else is stale. */
export interface ProofSubject {
  readonly document: DesignDocument;
  readonly box: PoseBox;
  readonly setup: ProofSetup;
  /** Parts of the box that were allowed to be looked at. */
  readonly boxes: number;
}

export interface ProofRun {
  readonly subject: ProofSubject;
  readonly status: 'running' | 'done' | 'cancelled' | 'failed';
  /** Settled so far, 0 to 1. */
  readonly share: number;
  /** Time taken so far, or in all [ms]. */
  readonly time: number;
  readonly decision: BoxDecision | null;
  readonly failure: string | null;
}

export interface ProveState {
  readonly setup: ProofSetup;
  readonly run: ProofRun | null;
}

/** Depths that can be asked for: more halvings than these outlast anyone's patience. */
export const PROOF_DEPTHS = { min: 6, max: 60 } as const;

/** Each further halving may double the parts to look at; past this factor only patience limits them. */
const MOST_BOXES_FACTOR = 1024;

/** Parts of a box that may be looked at, for a depth: some seconds of work at the usual depth, up to some hours. */
export const proofBoxes = (depth: number): number =>
  DEFAULT_PROOF_BOXES * Math.min(MOST_BOXES_FACTOR, Math.max(1, 2 ** (depth - DEFAULT_PROOF_DEPTH)));

const FIRST_SETUP: ProofSetup = {
  half: [10, 10, 10, 5, 5, 5],
  around: 'home',
  asked: PROOF_QUESTIONS,
  keep_mm: 0,
  depth: DEFAULT_PROOF_DEPTH,
};

export interface ProveStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
}

/** Proofs about boxes of poses: one at a time, on demand. */
export class ProveDesk {
  readonly store = createStore<ProveState>()(() => ({ setup: FIRST_SETUP, run: null }));
  readonly #stores: ProveStores;
  readonly #service: JudgingService;
  #turn = 0;

  constructor(stores: ProveStores, service: JudgingService) {
    this.#stores = stores;
    this.#service = service;
  }

  change(change: Partial<ProofSetup>): void {
    this.store.setState(({ setup }) => ({ setup: { ...setup, ...change } }));
  }

  /** Starts the proof that is set up in place of any that runs. */
  async start(): Promise<void> {
    this.#service.stop('prove');
    const turn = ++this.#turn;
    const document = liveDocument(this.#stores.design.getState());
    const { setup } = this.store.getState();
    const { asked, keep_mm: clearanceFloor, depth } = setup;
    const box = proofBox(setup, document, this.#stores.session.getState().pose);
    const subject: ProofSubject = { document, box, setup, boxes: proofBoxes(depth) };
    const { clearance } = inputsOf(document);
    const { spec } = compiledDesign(document).mechanism;
    const start = performance.now();
    const show = (change: Partial<ProofRun>) => {
      if (turn !== this.#turn) return;
      const time = performance.now() - start;
      this.store.setState(({ run }) => (run ? { run: { ...run, time, ...change } } : {}));
    };
    this.store.setState({
      run: { subject, status: 'running', share: 0, time: 0, decision: null, failure: null },
    });
    const question = { spec, box, asked, clearance, clearanceFloor, depth, boxes: subject.boxes };
    const outcome = await this.#service.prove(question, (share) => show({ share }));
    if (outcome.kind === 'done') show({ status: 'done', share: 1, decision: outcome.value });
    else if (outcome.kind === 'failed') show({ status: 'failed', failure: outcome.reason });
    else show({ status: 'cancelled' });
  }

  /** Stops the running proof; how far it came stays on screen. */
  cancel(): void {
    this.#service.stop('prove');
  }
}

/** The box that a set-up means for a design and the present pose. */
export const proofBox = (
  { half, around }: Pick<ProofSetup, 'half' | 'around'>,
  document: DesignDocument,
  pose: PoseAngles | null,
): PoseBox => boxOf(half, around === 'home' ? homePose(document) : presentPose(document, pose));

/** A box with half ranges in millimetres and degrees about a pose. */
export const boxOf = (half: readonly number[], centre: PoseAngles): PoseBox => ({
  centre,
  half: {
    position: [half[0], half[1], half[2]],
    roll: radians(half[3]),
    pitch: radians(half[4]),
    yaw: radians(half[5]),
  },
});
