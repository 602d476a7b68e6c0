import type { DesignDocument } from '../document/design.ts';
import { fault } from '../document/faults.ts';
import { judgementInputs } from '../document/judgement-inputs.ts';
import { deadLengthOf, taskSettingOf, withPart } from '../document/task-variations.ts';
import { documentFromPoseAngles } from '../document/units.ts';
import { judgeTask, type ScaledReport } from '../task/judge-task.ts';
import type { LineQuantity, TaskLine } from '../task/line.ts';
import { type ChangedPart, type TaskSetting, whatWouldDo } from '../task/what-would-do.ts';
import type { Floor } from '../terms/quantities.ts';
import { degrees } from '../terms/units.ts';
import { designVerb } from './design-verb.ts';
import { figure } from './findings.ts';
import { FLOOR, floorsOf, KEEP, keptNumbers } from './floors.ts';
import { jsonText } from './json-output.ts';
import { reportedWork } from './progress.ts';
import { done, refused } from './verb.ts';

/** Whether the platform does what it must. */
export const task = designVerb({
  options: [KEEP, FLOOR],
  run(document, request, io) {
    if (!document.task || document.task.requirements.length === 0) return refused([noTask(document)]);
    const floors = floorsOf(keptNumbers(request), document);
    const setting = taskSettingOf(document, floors);
    const { mechanism, parts, requirements } = setting;
    const { assumed } = judgementInputs(document, mechanism);
    const report = judgeTask(mechanism, parts, requirements, reportedWork(io, 'requirements'));
    if (!report) throw new Error('nothing stops the work of a verb');
    const output = {
      meets: report.meets,
      margin: report.margin,
      tau: report.tau,
      assumed,
      requirements: report.requirements.map(requirementOutput),
      ...(report.meets ? {} : { wouldDo: wouldDoOutput(document, setting, floors) }),
    };
    return done(
      jsonText(output),
      report.requirements.filter(({ must }) => must).flatMap((requirement) => findings(requirement)),
    );
  },
});

/** What would meet the task with this layout: what it asks of the parts, and the least change of each part alone. */
function wouldDoOutput(document: DesignDocument, setting: TaskSetting, floors: readonly Floor[]) {
  const dead = deadLengthOf(document);
  const { asked, changes } = whatWouldDo(setting, dead, (change) => {
    const varied = withPart(document, change);
    return varied && taskSettingOf(varied, floors);
  });
  const degreesOf = (angle: number | null) => (angle === null ? null : degrees(angle));
  return {
    asked: {
      shortest_mm: asked.shortest,
      longest_mm: asked.longest,
      stroke_mm: asked.longest - asked.shortest,
      mostDeadLength_mm: asked.deadLength,
      baseTilt_deg: degreesOf(asked.baseTilt),
      platformTilt_deg: degreesOf(asked.platformTilt),
    },
    deadLength_mm: dead,
    changes: changes.map(({ part, from, to }) => {
      const angle = part === 'baseJoint' || part === 'platformJoint';
      return { ...CHANGE_NAMES[part], from: angle ? degrees(from) : from, to: angle ? degreesOf(to) : to };
    }),
  };
}

/** What a change of a part changes. */
const CHANGE_NAMES: Readonly<Record<ChangedPart, { readonly change: string; readonly unit: 'mm' | 'deg' }>> = {
  actuator: { change: 'stroke', unit: 'mm' },
  baseJoint: { change: 'baseTilt', unit: 'deg' },
  platformJoint: { change: 'platformTilt', unit: 'deg' },
  basePlate: { change: 'baseRadius', unit: 'mm' },
  platformPlate: { change: 'platformRadius', unit: 'mm' },
};

const noTask = ({ task: stated }: DesignDocument) =>
  fault(
    'missing',
    stated ? 'task.requirements' : 'task',
    stated ? 'an empty list' : 'missing',
    'an object with one requirement or more',
    'Add what the platform must do.',
  );

/** Units of the figures as they are printed. */
const UNITS: Readonly<Record<LineQuantity, 'mm' | 'deg' | 'N' | 'N/mm' | '1'>> = {
  shortestLeg: 'mm',
  longestLeg: 'mm',
  stroke: 'mm',
  baseTilt: 'deg',
  platformTilt: 'deg',
  toolError: 'mm',
  stiffness: 'N/mm',
  pushForce: 'N',
  pullForce: 'N',
  leastPush: 'N',
  jointPull: 'N',
  clearance: 'mm',
  firmness: '1',
  condition: '1',
  freeSpin: '1',
};

/** What a line is called in a sentence. */
const WORDS: Readonly<Record<LineQuantity, string>> = {
  shortestLeg: 'the shortest leg',
  longestLeg: 'the longest leg',
  stroke: 'the stroke',
  baseTilt: 'the tilt of the base joints',
  platformTilt: 'the tilt of the platform joints',
  toolError: 'the tool error',
  stiffness: 'the stiffness',
  pushForce: 'the push of a leg',
  pullForce: 'the pull of a leg',
  leastPush: 'the least push of a leg',
  jointPull: 'the pull of a joint',
  clearance: 'the clearance',
  firmness: 'the firmness',
  condition: 'the condition',
  freeSpin: 'whether a leg may spin',
};

const requirementOutput = ({ name, must, meets, margin, tau, undecided, lines }: ScaledReport) => ({
  name,
  must,
  meets,
  margin,
  tau,
  undecided,
  lines: lines.map(lineOutput),
});

const shown = (quantity: LineQuantity, value: number | null): number | null =>
  value !== null && UNITS[quantity] === 'deg' ? degrees(value) : value;

function lineOutput(line: TaskLine) {
  const { quantity, axis, asked, bound, limit, margin, counted, leg, pose, certainty, note } = line;
  return {
    quantity,
    ...(axis ? { axis } : {}),
    unit: UNITS[quantity],
    asked: shown(quantity, asked),
    limit: shown(quantity, limit),
    margin,
    meets: counted && margin !== null ? margin >= 0 : null,
    leg,
    pose: pose && documentFromPoseAngles(pose),
    certainty,
    bound: shown(quantity, bound),
    ...(note === null ? {} : { note }),
  };
}

/** A line for each thing that is asked too much. */
function findings({ name, lines }: ScaledReport): readonly string[] {
  return lines.flatMap((line): readonly string[] => {
    const { quantity, asked, limit, margin, counted, leg, note } = line;
    if (!counted || margin === null || margin >= 0) return [];
    const words = WORDS[quantity];
    const why = note === null ? '' : ` (${note})`;
    if (asked === null || limit === null) return [`${name}: ${words} cannot be kept${why}.`];
    const unit = UNITS[quantity] === '1' ? '' : ` ${UNITS[quantity]}`;
    const at = leg === null ? '' : `, leg ${leg}`;
    const of = `${figure(shown(quantity, asked) ?? asked)} of ${figure(shown(quantity, limit) ?? limit)}${unit}`;
    return [`${name}: ${words} is ${of}${at}${why}.`];
  });
}
