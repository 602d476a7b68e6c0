import { presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { onlyBalls } from '../../document/units.ts';
import { LIMIT_WORDS } from '../../kinematics/limits.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { nearestBodies } from '../../state/design/nearest-bodies.ts';
import type { SessionState } from '../../state/session/session-store.ts';
import { QUANTITIES } from '../../terms/quantities.ts';
import { degrees } from '../../terms/units.ts';

const mm = (value: number): string => `${value.toFixed(1)} mm`;
const deg = (value: number): string => `${degrees(value).toFixed(1)} degrees`;

/** What the drawing shows, in sentences, for those who cannot see it. */
export function summaryWords(document: DesignDocument, session: SessionState): string {
  const { legs, independence, pose } = judgePose(document, session.pose);
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
    jointSentence(document),
    bodySentence(document),
    nearestSentence(document, session, pose),
    `Verdict: ${independence.verdict.word}.`,
    reachSentence(session),
    session.pinned ? 'The pinned design is drawn in dashed lines.' : '',
    session.looseMotion.shown ? 'The loosest motion is shown.' : '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

const KINDS: Readonly<Record<DesignDocument['joints']['base']['kind'], string>> = {
  ball: 'balls in sockets',
  rodEnd: 'rod ends with their bolts',
  universal: 'universal joints with their crosses',
};

/** Kinds of the joints, where they are not all balls. */
function jointSentence(document: DesignDocument): string {
  if (onlyBalls(document)) return '';
  const { base, platform } = document.joints;
  return `Base joints: ${KINDS[base.kind]}; platform joints: ${KINDS[platform.kind]}.`;
}

/** Payload and keep-outs that are drawn. */
function bodySentence({ payload, keepOuts = [] }: DesignDocument): string {
  const shape = payload?.shape;
  const kind = !shape ? '' : 'box' in shape ? 'a box' : 'cylinder' in shape ? 'a cylinder' : 'the hull of a mesh';
  const volumes = keepOuts.map(({ name, fixedTo }, index) => `K${index + 1} ${name} on the ${fixedTo}`);
  return [
    kind === '' ? '' : `The payload is drawn as ${kind}.`,
    volumes.length === 0 ? '' : `Keep-out volumes: ${volumes.join(', ')}.`,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

/** The nearest two bodies where the drawing marks them. */
function nearestSentence(document: DesignDocument, session: SessionState, pose: Pose): string {
  const nearest = nearestBodies(document, pose, session.clearanceShown);
  if (!nearest) return '';
  return nearest.state === 'apart' ? `Nearest bodies: ${nearest.words}.` : `Too near: ${nearest.words}.`;
}

function reachSentence({ reachDrawing, reachColouring }: SessionState): string {
  if (reachDrawing === 'none') return 'The reach is not drawn.';
  const by =
    reachColouring === 'firmness'
      ? 'how firm the platform is there'
      : reachColouring === 'limit'
        ? 'the limit that stops it there'
        : QUANTITIES[reachColouring].words;
  return `The reach is drawn as a ${reachDrawing}, coloured by ${by}.`;
}
