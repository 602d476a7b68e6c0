import type { DesignDocument, PoseDocument } from '../document/design.ts';
import { judgementInputs } from '../document/judgement-inputs.ts';
import { documentFromPoseAngles, mechanismFromDocument, poseAnglesFromDocument } from '../document/units.ts';
import { DEFAULT_PROOF_DEPTH, type ProofAnswer, proveBox } from '../reach/prove/prove.ts';
import type { NumberRange } from '../terms/number-range.ts';
import { degrees } from '../terms/units.ts';
import { figure } from './findings.ts';
import { jsonText } from './json-output.ts';
import { AT, badArgument, type OptionSpec, type OptionValues } from './options.ts';
import { askedPose } from './pose.ts';
import { done, refused, type Verb } from './verb.ts';

const halfLength: NumberRange = { min: 0, max: 1_000_000, unit: 'mm', says: 'Half range of a coordinate.' };
const halfAngle: NumberRange = { min: 0, max: 90, unit: 'deg', says: 'Half range of an angle.' };

const BOX: OptionSpec = {
  name: 'box',
  numbers: [
    ...['x', 'y', 'z'].map((name) => ({ name, range: halfLength })),
    ...['roll', 'pitch', 'yaw'].map((name) => ({ name, range: halfAngle })),
  ],
};

/** More halvings than this outlast anyone's patience: ten of each pose number. */
const DEPTH: OptionSpec = {
  name: 'depth',
  numbers: [{ name: 'n', range: { min: 0, max: 60, whole: true, unit: '', says: 'Halvings allowed for any box.' } }],
};

/** Distance that bodies must keep. */
const KEEP: OptionSpec = {
  name: 'clearance',
  numbers: [{ name: 'mm', range: { min: 0, max: 10_000, unit: 'mm', says: 'Distance that bodies must keep.' } }],
};

const QUESTION_WORDS = {
  reachable: 'reachable',
  regular: 'free of singular poses',
  clear: 'clear',
} as const;

type Question = keyof typeof QUESTION_WORDS;

/** Decides for a whole box of poses. */
export const prove: Verb = {
  usage: 'FILE --box x,y,z,roll,pitch,yaw [--at x,y,z,roll,pitch,yaw] [--depth 24] [--clearance mm]',
  says: 'whether every pose within these half ranges of a pose (home if left out) is reachable, free of singular poses and clear',
  options: [BOX, AT, DEPTH, KEEP],
  run(document, options) {
    const half = askedPose(options, BOX.name);
    if (!half) {
      const numbers = BOX.numbers.map(({ name }) => name).join(',');
      return refused([badArgument('--box', 'missing', `six half ranges ${numbers}`, `Write --box ${numbers}.`)]);
    }
    return proveAround(document, askedPose(options, AT.name) ?? document.home, half, options);
  },
};

function proveAround(document: DesignDocument, centre: PoseDocument, half: PoseDocument, options: OptionValues) {
  const mechanism = mechanismFromDocument(document);
  const { clearance, assumed } = judgementInputs(document, mechanism);
  const depth = options.get(DEPTH.name)?.[0] ?? DEFAULT_PROOF_DEPTH;
  const clearanceFloor = options.get(KEEP.name)?.[0] ?? 0;
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
      return { answer: answer.answer, pose: documentFromPoseAngles(answer.pose), reason: answer.reason };
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
    return [`Not every pose of the box is ${words}. At ${pose}: ${answer.reason}`];
  }
  const share = figure(100 * answer.share);
  return [`Whether every pose of the box is ${words} is undecided in ${share} % of it at this depth; raise --depth.`];
}
