import type { DesignDocument, PoseDocument } from '../document/design.ts';
import { judgementInputs } from '../document/judgement-inputs.ts';
import { documentFromPoseAngles, mechanismFromDocument, poseAnglesFromDocument } from '../document/units.ts';
import { DEFAULT_PROOF_DEPTH, type ProofAnswer, proveBox } from '../reach/prove/prove.ts';
import type { NumberRange } from '../terms/number-range.ts';
import { degrees } from '../terms/units.ts';
import { refutationWords } from '../words/refutation.ts';
import { designVerb } from './design-verb.ts';
import { figure } from './findings.ts';
import { jsonText } from './json-output.ts';
import { badArgument, number, numbers } from './option.ts';
import { AT } from './options.ts';
import { poseOf } from './pose.ts';
import { done, refused, type VerbRequest } from './verb.ts';

const halfLength: NumberRange = { min: 0, max: 1_000_000, unit: 'mm', says: 'Half range of a coordinate.' };
const halfAngle: NumberRange = { min: 0, max: 90, unit: 'deg', says: 'Half range of an angle.' };

const BOX = numbers('box', [
  ...['x', 'y', 'z'].map((name) => ({ name, range: halfLength })),
  ...['roll', 'pitch', 'yaw'].map((name) => ({ name, range: halfAngle })),
]);

/** More halvings than this outlast anyone's patience: ten of each pose number. */
const DEPTH = number('depth', 'n', {
  ...{ min: 0, max: 60, whole: true, unit: '', says: 'Halvings allowed for any box.' },
});

/** Distance that bodies must keep. */
const KEEP = number('clearance', 'mm', { min: 0, max: 10_000, unit: 'mm', says: 'Distance that bodies must keep.' });

const QUESTION_WORDS = {
  reachable: 'reachable',
  regular: 'free of singular poses',
  clear: 'clear',
} as const;

type Question = keyof typeof QUESTION_WORDS;

/** Decides for a whole box of poses. */
export const prove = designVerb({
  options: [BOX, AT, DEPTH, KEEP],
  run(document, request) {
    const half = poseOf(request.get(BOX));
    if (half) return proveAround(document, poseOf(request.get(AT)) ?? document.home, half, request);
    return refused([badArgument('--box', 'missing', `six half ranges ${BOX.follows}`, `Write --box ${BOX.follows}.`)]);
  },
});

function proveAround(document: DesignDocument, centre: PoseDocument, half: PoseDocument, request: VerbRequest) {
  const mechanism = mechanismFromDocument(document);
  const { clearance, assumed } = judgementInputs(document, mechanism);
  const depth = request.get(DEPTH) ?? DEFAULT_PROOF_DEPTH;
  const clearanceFloor = request.get(KEEP) ?? 0;
  const box = { centre: poseAnglesFromDocument(centre), half: poseAnglesFromDocument(half) };
  const proof = proveBox(mechanism, box, { clearance, clearanceFloor, depth });
  if (!proof.ok) {
    const remedy = 'Change the box, or the joint named.';
    return refused([
      badArgument('--box', 'one that cannot be judged', `another: ${proof.fault.message.replace(/\.$/, '')}`, remedy),
    ]);
  }
  const { reachable, regular, clear, boxes, depth: deepest } = proof.value;
  const questions: readonly (readonly [Question, ProofAnswer])[] = [
    ['reachable', reachable],
    ['regular', regular],
    ...(clear ? [['clear', clear] as const] : []),
  ];
  const output = {
    answer: overall(questions.map(([, answer]) => answer)),
    box: { centre, half },
    clearance_mm: clearanceFloor,
    ...Object.fromEntries(questions.map(([question, answer]) => [question, answerOutput(answer)])),
    boxes,
    depth: deepest,
    depthAllowed: depth,
    assumedPlates: assumed.plates,
  };
  return done(
    jsonText(output),
    questions.flatMap(([question, answer]) => answerFinding(question, answer)),
  );
}

function overall(answers: readonly ProofAnswer[]): ProofAnswer['answer'] {
  if (answers.some(({ answer }) => answer === 'refuted')) return 'refuted';
  return answers.every(({ answer }) => answer === 'proven') ? 'proven' : 'undecided';
}

function answerOutput(answer: ProofAnswer) {
  switch (answer.answer) {
    case 'proven':
      return { answer: answer.answer };
    case 'refuted':
      return {
        answer: answer.answer,
        pose: documentFromPoseAngles(answer.pose),
        reason: refutationWords(answer.reason),
      };
    case 'undecided':
      return { answer: answer.answer, share: answer.share, near: documentFromPoseAngles(answer.near) };
  }
}

function answerFinding(question: Question, answer: ProofAnswer): readonly string[] {
  const words = QUESTION_WORDS[question];
  if (answer.answer === 'proven') return [];
  if (answer.answer === 'refuted') {
    const { position, roll, pitch, yaw } = answer.pose;
    const pose = [...position, degrees(roll), degrees(pitch), degrees(yaw)].map(figure).join(',');
    return [`Not every pose of the box is ${words}. At ${pose}: ${refutationWords(answer.reason)}`];
  }
  const share = figure(100 * answer.share);
  return [`Whether every pose of the box is ${words} is undecided in ${share} % of it at this depth; raise --depth.`];
}
