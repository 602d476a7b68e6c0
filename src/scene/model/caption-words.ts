import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { REFERENCE_PLAY } from '../../kinematics/loosest-motion.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import type { SessionState } from '../../state/session/session-store.ts';
import { shownAmplitude, shownTimes } from '../shape/loose-pose.ts';

/** Where the picture of the reach stands. */
export interface PictureStatus {
  /** There is one, old or new. */
  readonly any: boolean;
  /** It has been of a former design for some time. */
  readonly stale: boolean;
  /** Why the last attempt came to nothing; null while one is under way. */
  readonly failure: string | null;
}

/** "Reach at home orientation", and whether it is up to date; null where none is drawn. */
export function reachWords(session: SessionState, { any, stale, failure }: PictureStatus): string | null {
  if (session.reachDrawing === 'none') return null;
  const present = session.reachOrientation === 'present' && session.pose !== null;
  const words = `Reach at ${present ? 'the present' : 'home'} orientation`;
  if (failure !== null) return `${words} could not be found: ${failure}`;
  if (!any) return `${words} is being found`;
  return stale ? `${words}; grey: of the former design, the new one is being found` : words;
}

/** What the rocking platform shows, and how much larger than life; null while it stands still. */
export function looseWords(document: DesignDocument, { looseMotion, pose }: SessionState): string | null {
  if (!looseMotion.shown) return null;
  const { mechanism } = compiledDesign(document);
  const { independence, pose: at } = judgePose(document, pose);
  const motion = independence.loosestMotion;
  const times = shownTimes(motion, shownAmplitude(mechanism, motion, at));
  if (times === null) return 'Loosest motion: the legs do not stop it, so it has no size of its own';
  return `Loosest motion, shown ${timesText(times)} times larger than ${REFERENCE_PLAY} mm of play in the legs makes it`;
}

/** Says what the dashed lines are. */
export const pinnedWords = ({ hovered, pinned }: SessionState): string | null => {
  if (hovered) return 'Dashed: the layout pointed at';
  return pinned ? `Dashed: pinned design${pinned.name ? ` “${pinned.name}”` : ''}` : null;
};

/** Two significant figures. */
const timesText = (times: number): string => Number(times.toPrecision(2)).toLocaleString('en');
