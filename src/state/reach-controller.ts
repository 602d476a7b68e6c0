import type { JobOutcome } from '../jobs/outcome.ts';
import type { PictureDetail, ReachJobs, ReachPicture, ReachQuestion, ReachSummary, TiltRange } from '../jobs/reach-jobs.ts';
import { poseFromAngles } from '../kinematics/pose.ts';
import { compiledDesign } from './derived.ts';
import { type DesignStore, liveDocument } from './design-store.ts';
import { type Outcome, type ReachSubject, type ResultsStore, sameOrientation, type TiltedSubject } from './results-store.ts';
import { reachPose, type SessionStore } from './session-store.ts';

/** Quiet time after which the drawing is computed finely [ms]; until then it follows coarsely. */
export const REFINE_DELAY = 200;

/** Quiet time after which the reach over the tilt range is asked for [ms]; it takes longest and is looked at last. */
export const TILTED_DELAY = 350;

/** Whoever computes: workers in the browser, plain functions in tests. */
export interface ReachService {
  summary(question: ReachQuestion): Promise<JobOutcome<ReachSummary>>;
  picture(question: ReachQuestion, detail: PictureDetail): Promise<JobOutcome<ReachPicture>>;
  tilted(question: ReachQuestion, range: TiltRange): Promise<JobOutcome<ReachSummary>>;
  /** Stops a running `tilted`, whose answer is not wanted any more. */
  stopTilted(): void;
}

export interface FollowedStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
  readonly results: ResultsStore;
}

type ResultName = 'summary' | 'picture' | 'tilted';

/**
 * Keeps the results in step with the design on screen: numbers first, then the drawing, coarse while things move and fine
 * when they rest, last the reach over the tilt range. Under a moving slider the drawing may lag by a step or two; an answer
 * that is older than the one on screen is dropped, and every answer says what it was computed for.
 */
export function followReach(stores: FollowedStores, service: ReachService): () => void {
  const board = new ResultBoard(stores.results);
  let level: ReachSubject | null = null;
  let tilted: TiltedSubject | null = null;
  let refining: ReturnType<typeof setTimeout> | undefined;
  let tilting: ReturnType<typeof setTimeout> | undefined;

  const askLevel = (subject: ReachSubject) => {
    level = subject;
    const question = questionOf(subject);
    board.await('summary', subject, service.summary(question));
    board.await('picture', subject, service.picture(question, 'coarse'));
    clearTimeout(refining);
    refining = setTimeout(() => board.await('picture', subject, service.picture(question, 'fine')), REFINE_DELAY);
  };
  const askTilted = (subject: TiltedSubject) => {
    tilted = subject;
    service.stopTilted();
    board.expect('tilted');
    const { tiltRange: tilt, yawRange: yaw, document } = subject;
    const question = questionOf({ document, pose: null });
    clearTimeout(tilting);
    tilting = setTimeout(() => board.await('tilted', subject, service.tilted(question, { tilt, yaw })), TILTED_DELAY);
  };
  const follow = () => {
    const document = liveDocument(stores.design.getState());
    const session = stores.session.getState();
    const pose = reachPose(session);
    if (level?.document !== document || !sameOrientation(level.pose, pose)) askLevel({ document, pose });
    const { tiltRange, yawRange } = session;
    if (tilted?.document !== document || tilted.tiltRange !== tiltRange || tilted.yawRange !== yawRange) {
      askTilted({ document, tiltRange, yawRange });
    }
  };
  follow();
  const stops = [stores.design.subscribe(follow), stores.session.subscribe(follow)];
  return () => {
    clearTimeout(refining);
    clearTimeout(tilting);
    service.stopTilted();
    for (const stop of stops) stop();
  };
}

function questionOf({ document, pose }: ReachSubject): ReachQuestion {
  const { mechanism } = compiledDesign(document);
  return { spec: mechanism.spec, R_BP: pose ? poseFromAngles(pose).R_BP : mechanism.home.R_BP };
}

/** Writes answers to the results store in the order in which they were asked for; late ones are dropped. */
class ResultBoard {
  readonly #results: ResultsStore;
  readonly #asked = { summary: 0, picture: 0, tilted: 0 };
  readonly #shown = { summary: 0, picture: 0, tilted: 0 };

  constructor(results: ResultsStore) {
    this.#results = results;
  }

  /** Marks what is shown as about to be replaced. */
  expect(name: ResultName): void {
    this.#asked[name] += 1;
    if (!this.#results.getState()[name].working) this.#set(name, { working: true });
  }

  /** Shows an answer when it comes. */
  await<Value, Subject>(name: ResultName, subject: Subject, answer: Promise<JobOutcome<Value>>): void {
    this.expect(name);
    const turn = this.#asked[name];
    void answer.then((outcome) => this.#show(name, turn, subject, outcome));
  }

  #show(name: ResultName, turn: number, subject: unknown, outcome: JobOutcome<unknown>): void {
    const newest = turn === this.#asked[name];
    if (outcome.kind === 'cancelled' || turn < this.#shown[name]) return;
    this.#shown[name] = turn;
    const working = !newest;
    if (outcome.kind === 'failed') this.#set(name, { working, failure: outcome.reason });
    else this.#set(name, { working, failure: null, finished: { subject, value: outcome.value } });
  }

  #set(name: ResultName, change: Partial<Outcome<unknown, unknown>>): void {
    this.#results.setState((state) => ({ [name]: { ...state[name], ...change } }));
  }
}
