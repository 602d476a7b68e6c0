import type { FieldQuestion } from '../../jobs/field-jobs.ts';
import type { FieldService } from '../../jobs/field-service.ts';
import type { JobOutcome } from '../../jobs/outcome.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import type { UsableReach } from '../../reach/columns/usable.ts';
import type { CutQuestion } from '../../reach/field/field-cut.ts';
import { isKnown } from '../../reach/field/field-settings.ts';
import type { QuantityName } from '../../terms/quantities.ts';
import { liveDocument } from '../design/design-store.ts';
import { floorsOf, settingsOf } from '../design/judging-inputs.ts';
import { isFieldColouring, reachPose, type SessionState } from '../session/session-store.ts';
import { cutPlace, cutPlane, pictureBox, roomyBox } from './cut-plane.ts';
import type { DrawnSubject, FieldState, FieldStore } from './field-store.ts';
import { FIRST_DELAY, type FollowedStores, questionOf } from './reach-controller.ts';
import { ResultSlot } from './result-slots.ts';
import { isCurrent, type Outcome, type ReachSubject, sameOrientation } from './results-store.ts';

/** Quiet time after which the usable volume is asked for [ms]. */
export const USABLE_DELAY = 300;

/** Nodes along the longer side of a cut: about one to every three pixels of a large screen, which smooth shading fills. */
const CUT_RESOLUTION = 150;

export interface FieldStores extends FollowedStores {
  readonly field: FieldStore;
}

/**
 * Keeps what is shown of the field in step with the design: values for the drawn reach once it is fine, the cut while it is dragged,
 * the usable volume when all is quiet. Nothing is computed that nobody looks at, and nothing while the reach itself follows a slider.
 */
export function followField(stores: FieldStores, service: FieldService): () => void {
  const slots = {
    field: slotOf(stores.field, 'field'),
    cut: slotOf(stores.field, 'cut'),
    signs: slotOf(stores.field, 'signs'),
    usable: slotOf(stores.field, 'usable'),
  };
  const asked = { field: '', cut: '', signs: '' };
  let usable: ReachSubject | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let delay = FIRST_DELAY;

  /** Asks once for the same thing of the same picture. */
  const once = (kind: keyof typeof asked, picture: ReachPicture, what: string, ask: () => void) => {
    const key = `${numberOf(picture)} ${what}`;
    if (asked[kind] === key) return;
    asked[kind] = key;
    ask();
  };
  const followDrawn = (subject: ReachSubject, session: SessionState, picture: ReachPicture) => {
    const question = fieldQuestion(subject);
    const drawn: DrawnSubject = { picture };
    const box = pictureBox(picture);
    const floors = floorsOf(subject.document);
    if (wantsField(session, floors.length > 0))
      once('field', picture, '', () => {
        const places = { cloud: picture.cloud.positions, shell: picture.shell.positions };
        slots.field.await(drawn, service.field(question, places));
      });
    if (!box) return;
    if (session.signs.shown)
      once('signs', picture, '', () => slots.signs.await(drawn, service.signs(question, roomyBox(box))));
    if (!session.cut.shown) return;
    const { reachColouring, signs, cut } = session;
    const known = (quantity: QuantityName) => isKnown(quantity, question.settings);
    const cutQuestion: CutQuestion = {
      plane: cutPlane(box, cut.axis, cutPlace(cut, subject.document, session.pose)),
      quantity: isFieldColouring(reachColouring) && known(reachColouring) ? reachColouring : 'magnification',
      floors: floors.filter(({ quantity }) => known(quantity)),
      leg: signs.shown ? signs.leg : null,
      resolution: CUT_RESOLUTION,
    };
    once('cut', picture, JSON.stringify(cutQuestion), () => slots.cut.await(drawn, service.cut(question, cutQuestion)));
  };
  const askUsable = async (subject: ReachSubject): Promise<JobOutcome<UsableReach>> => {
    const floors = floorsOf(subject.document);
    const question = fieldQuestion(subject);
    const unknown = floors.find(({ quantity }) => !isKnown(quantity, question.settings));
    return unknown ? { kind: 'failed', reason: UNKNOWN_STIFFNESS } : service.usable(question, floors);
  };
  const followUsable = (subject: ReachSubject) => {
    if (usable?.document === subject.document && sameOrientation(usable.pose, subject.pose)) return;
    usable = subject;
    slots.usable.expect();
    clearTimeout(waiting);
    waiting = setTimeout(() => slots.usable.await(subject, askUsable(subject)), delay + USABLE_DELAY);
  };
  const follow = () => {
    const document = liveDocument(stores.design.getState());
    const session = stores.session.getState();
    const subject = { document, pose: reachPose(session) };
    followUsable(subject);
    const { finished } = stores.results.getState().picture;
    if (finished?.value.detail !== 'fine') return;
    if (isCurrent(finished.subject, document, subject.pose)) followDrawn(subject, session, finished.value);
  };
  follow();
  delay = 0;
  const stops = [stores.design, stores.session, stores.results].map((store) => store.subscribe(follow));
  return () => {
    clearTimeout(waiting);
    for (const stop of stops) stop();
  };
}

/** Of all that quantities are computed from, only the stiffness of the legs has no assumption that stands in for it. */
export const UNKNOWN_STIFFNESS =
  'The design does not say how stiff its legs are, so the floor on stiffness cannot be judged: state it under Stiffness.';

const wantsField = ({ reachDrawing, reachColouring, cut }: SessionState, floors: boolean): boolean =>
  (reachDrawing !== 'none' || cut.shown) && (floors || isFieldColouring(reachColouring));

const numbers = new WeakMap<ReachPicture, number>();
let pictures = 0;

/** A number of its own for each picture. */
function numberOf(picture: ReachPicture): number {
  const known = numbers.get(picture);
  if (known !== undefined) return known;
  numbers.set(picture, ++pictures);
  return pictures;
}

function fieldQuestion(subject: ReachSubject): FieldQuestion {
  return { ...questionOf(subject), settings: settingsOf(subject.document) };
}

type Kinds = {
  readonly [Kind in keyof FieldState]: FieldState[Kind] extends Outcome<infer V, infer S> ? [V, S] : never;
};

function slotOf<Kind extends keyof FieldState>(
  store: FieldStore,
  kind: Kind,
): ResultSlot<Kinds[Kind][0], Kinds[Kind][1]> {
  const read = (): FieldState[Kind] => store.getState()[kind];
  return new ResultSlot<Kinds[Kind][0], Kinds[Kind][1]>(read, (outcome) => store.setState({ [kind]: outcome }));
}
