import { compiledDesign } from '../../document/compiled.ts';
import type { ReachQuestion } from '../../jobs/reach-question.ts';
import type { ReachService } from '../../jobs/reach-service.ts';
import { poseFromAngles } from '../../kinematics/pose.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import { reachPose, type SessionStore } from '../session/session-store.ts';
import { resultSlots } from './result-slots.ts';
import { isCurrent, type ReachSubject, type ResultsStore, type TiltedSubject } from './results-store.ts';
import { sameReach } from './same-reach.ts';

/** Quiet time after which the drawing is computed finely [ms]; until then it follows coarsely. */
export const REFINE_DELAY = 200;

/** Quiet time after which the reach over the tilt range is asked for [ms]; it takes longest and is looked at last. */
export const TILTED_DELAY = 350;

/** On top of both at the very start [ms]: until the page stands, the cores have better things to do. */
export const FIRST_DELAY = 1200;

export interface FollowedStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
  readonly results: ResultsStore;
}

/**
 * Keeps the results in step with the design on screen: numbers first, then the drawing, coarse while things move and fine
 * when they rest, last the reach over the tilt range. Under a moving slider the drawing may lag by a step or two; an answer
 * that is older than the one on screen is dropped, and every answer says what it was computed for.
 */
export function followReach(stores: FollowedStores, service: ReachService): () => void {
  const slots = resultSlots(stores.results);
  let level: ReachSubject | null = null;
  let tilted: TiltedSubject | null = null;
  let pinned: TiltedSubject | null = null;
  let refining: ReturnType<typeof setTimeout> | undefined;
  let tilting: ReturnType<typeof setTimeout> | undefined;
  let delay = FIRST_DELAY;

  const askLevel = (subject: ReachSubject) => {
    level = subject;
    service.stop('fine');
    const question = questionOf(subject);
    slots.summary.await(subject, service.summary(question));
    slots.picture.await(subject, service.picture(question, 'coarse'));
    clearTimeout(refining);
    refining = setTimeout(() => slots.picture.await(subject, service.picture(question, 'fine')), delay + REFINE_DELAY);
  };
  const askTilted = (subject: TiltedSubject) => {
    tilted = subject;
    service.stop('tilted');
    slots.tilted.expect();
    const { tiltRange: tilt, yawRange: yaw, document } = subject;
    const question = questionOf({ document, pose: null });
    clearTimeout(tilting);
    tilting = setTimeout(
      () => slots.tilted.await(subject, service.tilted(question, { tilt, yaw })),
      delay + TILTED_DELAY,
    );
  };
  const askPinned = (subject: TiltedSubject) => {
    pinned = subject;
    const { tiltRange: tilt, yawRange: yaw, document } = subject;
    slots.pinned.await(subject, service.pinned(questionOf({ document, pose: null }), { tilt, yaw }));
  };
  const follow = () => {
    const document = liveDocument(stores.design.getState());
    const session = stores.session.getState();
    const pose = reachPose(session);
    if (!level || !isCurrent(level, document, pose)) askLevel({ document, pose });
    const { tiltRange, yawRange } = session;
    const now = { document, tiltRange, yawRange };
    if (!sameSubject(tilted, now)) askTilted(now);
    if (!session.pinned) return;
    const kept = { ...now, document: session.pinned };
    if (!sameSubject(pinned, kept)) askPinned(kept);
  };
  follow();
  delay = 0;
  const stops = [stores.design.subscribe(follow), stores.session.subscribe(follow)];
  return () => {
    clearTimeout(refining);
    clearTimeout(tilting);
    service.stop('fine');
    service.stop('tilted');
    for (const stop of stops) stop();
  };
}

const sameSubject = (one: TiltedSubject | null, other: TiltedSubject): boolean =>
  one !== null &&
  sameReach(one.document, other.document) &&
  one.tiltRange === other.tiltRange &&
  one.yawRange === other.yawRange;

export function questionOf({ document, pose }: ReachSubject): ReachQuestion {
  const { mechanism } = compiledDesign(document);
  return { spec: mechanism.spec, R_BP: pose ? poseFromAngles(pose).R_BP : mechanism.home.R_BP };
}
