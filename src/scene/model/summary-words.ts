import type { DesignDocument } from '../../document/design.ts';
import { degrees } from '../../document/units.ts';
import { LIMIT_WORDS } from '../../kinematics/limits.ts';
import { QUANTITY_MEANING } from '../../reach/field-quantities.ts';
import { judgePose, presentPose } from '../../state/derived.ts';
import type { SessionState } from '../../state/session-store.ts';

const mm = (value: number): string => `${value.toFixed(1)} mm`;
const deg = (value: number): string => `${degrees(value).toFixed(1)} degrees`;

/** What the drawing shows, in sentences, for those who cannot see it. */
export function summaryWords(document: DesignDocument, session: SessionState): string {
  const { legs, independence } = judgePose(document, session.pose);
  const { position, roll, pitch, yaw } = presentPose(document, session.pose);
  const [x, y, z] = position;
  const lengths = legs.map((leg) => `leg ${leg.leg} ${mm(leg.length)}`).join(', ');
  const broken = legs.flatMap((leg) =>
    leg.violations.map((limit) => `leg ${leg.leg} ${LIMIT_WORDS[limit].replace(/^leg /, '')}`),
  );
  return [
    `Base plate A below, platform B above, joined by six legs: ${lengths}.`,
    `Tool point at x ${mm(x)}, y ${mm(y)}, z ${mm(z)}; roll ${deg(roll)}, pitch ${deg(pitch)}, yaw ${deg(yaw)}.`,
    broken.length > 0 ? `Broken limits: ${broken.join('; ')}.` : 'All limits hold at this pose.',
    `Verdict: ${independence.verdict.word}.`,
    reachSentence(session),
    session.pinned ? 'The pinned design is drawn in dashed lines.' : '',
    session.looseMotion.shown ? 'The loosest motion is shown.' : '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

function reachSentence({ reachDrawing, reachColouring }: SessionState): string {
  if (reachDrawing === 'none') return 'The reach is not drawn.';
  const by =
    reachColouring === 'firmness'
      ? 'how firm the platform is there'
      : reachColouring === 'limit'
        ? 'the limit that stops it there'
        : QUANTITY_MEANING[reachColouring].words;
  return `The reach is drawn as a ${reachDrawing}, coloured by ${by}.`;
}
