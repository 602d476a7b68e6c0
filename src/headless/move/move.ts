import type { DesignDocument } from '../../document/design.ts';
import { type DesignFault, fault } from '../../document/faults.ts';
import { judgementInputs } from '../../document/judgement-inputs.ts';
import { motionFindings, motionInputs } from '../../document/motion-inputs.ts';
import { MOST_PATH_BYTES, readPathText } from '../../document/path-table.ts';
import { documentFromPoseAngles, mechanismFromDocument } from '../../document/units.ts';
import { poseBodies } from '../../kinematics/clearance.ts';
import { clearanceModel } from '../../kinematics/clearance-pairs.ts';
import { legMassesFault } from '../../kinematics/leg-masses.ts';
import { loadFault } from '../../kinematics/load.ts';
import { anglesFromPose } from '../../kinematics/pose.ts';
import { SmallestClearance } from '../../kinematics/smallest-clearance.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { fastestMotion } from '../../motion/fastest/fastest-motion.ts';
import { NO_TOOL_LIMITS } from '../../motion/fastest/way-limits.ts';
import { followMotion } from '../../motion/follow/follow.ts';
import type { MovingDesign } from '../../motion/follow/leg-readings.ts';
import { legSpaceDeviation } from '../../motion/leg-space.ts';
import { type Path, type WritableMoment, writableMoment } from '../../motion/paths/path.ts';
import { throughCoordinates } from '../../motion/paths/through-poses.ts';
import { designVerb } from '../design-verb.ts';
import { figure } from '../findings.ts';
import { shownFile } from '../input.ts';
import type { Io } from '../io.ts';
import { jsonText } from '../json-output.ts';
import { choice, file, number } from '../option.ts';
import { reportedWork } from '../progress.ts';
import { done, type OutputFile, refused, type VerbRequest } from '../verb.ts';
import { motionOutput, violationLines } from './motion-output.ts';
import { MotionTable } from './motion-table.ts';

const PATH = file('path', 'P.csv', ['.csv']);
const LAW = choice('law', ['asked', 'fastest']);
const TABLE = file('table', 'OUT.csv', ['.csv']);
const STEP = number('step', 's', {
  ...{ min: 1e-5, max: 3600, unit: '', says: 'Seconds between two rows where the path has no times of its own.' },
});
const RAMP = number('ramp', 's', {
  ...{ min: 0, max: 60, unit: '', says: 'Length of the ramps that take the place of jumps of acceleration.' },
});

/** Left out: the fastest law changes its accelerations over this time [s]. */
const USUAL_RAMP = 0.05;

/** Left out: rows of a path without times of its own are a millisecond apart. */
const USUAL_STEP = 0.001;

/** Most rows of a table that is asked for by its step. */
const MOST_ROWS = 2_000_000;

/** A motion judged along its way: legs, drives, joints, clearance, singular poses. */
export const move = designVerb({
  options: [PATH, LAW, TABLE, STEP, RAMP],
  asksForce: true,
  async run(document, request, io) {
    const design = movingDesign(document);
    if (!design.ok) return refused([design.fault]);
    const asked = await askedPath(request, io);
    if (!asked.ok) return refused(asked.fault);
    const timed = timedPath(design.value, asked.value, request);
    if (!timed.ok) return refused([timed.fault]);
    return followed(document, design.value, timed.value, request, io);
  },
});

function movingDesign(document: DesignDocument): Result<MovingDesign, DesignFault> {
  const mechanism = mechanismFromDocument(document);
  const { load } = judgementInputs(document, mechanism);
  const inputs = motionInputs(document);
  const wrong = loadFault(load) ?? legMassesFault(inputs.masses);
  return wrong
    ? failed(fault('outOfRange', 'The load or a mass', wrong.message, 'usable', 'Correct it.'))
    : ok({ mechanism, load, ...inputs });
}

/** The path of the file, with the times of its rows. */
interface AskedPath {
  readonly path: Path;
  readonly times: Float64Array;
}

async function askedPath(request: VerbRequest, io: Io): Promise<Result<AskedPath, readonly DesignFault[]>> {
  const name = request.get(PATH);
  if (name === undefined)
    return failed([fault('missing', '--path', 'missing', 'a path as CSV', 'Write --path P.csv.')]);
  const bytes = await io.readFile(name, MOST_PATH_BYTES);
  if (!bytes.ok) return failed([bytes.fault]);
  const table = readPathText(bytes.value);
  if (!table.ok)
    return failed(table.fault.map((found) => ({ ...found, message: `${shownFile(name)}: ${found.message}` })));
  return ok({ path: throughCoordinates(table.value.times, table.value.coordinates), times: table.value.times });
}

/** What is followed: a motion in time, the times of its rows, and how it came about. */
interface TimedPath extends AskedPath {
  readonly law: 'asked' | 'fastest';
  readonly ends: Float64Array;
  readonly fastest: { readonly bareDuration: number; readonly slowedBy: number; readonly ramp: number } | null;
}

function timedPath(design: MovingDesign, asked: AskedPath, request: VerbRequest): Result<TimedPath, DesignFault> {
  if (request.get(LAW) !== 'fastest') return ok({ ...asked, law: 'asked', ends: asked.times, fastest: null });
  const { limits } = design;
  if (![limits.speed, limits.acceleration, limits.push, limits.pull].some(Number.isFinite)) {
    const limit = 'limited in speed, acceleration or force';
    const remedy = 'State legs.speed_mm_s, legs.acceleration_mm_s2, legs.push_N or legs.pull_N in the design.';
    return failed(fault('missing', '--law fastest', 'asked of legs without limits', limit, remedy));
  }
  const ramp = request.get(RAMP) ?? USUAL_RAMP;
  const found = fastestMotion(design, asked.path, ramp, NO_TOOL_LIMITS);
  if (!found.ok) {
    const limit = 'a path that the legs can follow from rest to rest';
    const remedy =
      'The legs cannot even hold the load there within their limits, or cannot stop in time: raise a limit, or change the path.';
    return failed(
      fault('contradiction', '--law fastest', `stuck ${figure(found.fault.at)} s along the path`, limit, remedy),
    );
  }
  const { path, bareDuration, slowedBy } = found.value;
  const step = request.get(STEP) ?? USUAL_STEP;
  const rows = Math.ceil(path.duration / step) + 1;
  if (rows > MOST_ROWS)
    return failed(
      fault(
        'tooLarge',
        '--step',
        `${step} s, which makes ${rows} rows`,
        `at most ${MOST_ROWS} rows`,
        'Choose a larger step.',
      ),
    );
  const times = Float64Array.from({ length: rows }, (_, n) => Math.min(path.duration, n * step));
  return ok({ path, times, law: 'fastest', ends: times, fastest: { bareDuration, slowedBy, ramp } });
}

function followed(document: DesignDocument, design: MovingDesign, timed: TimedPath, request: VerbRequest, io: Io) {
  const { mechanism } = design;
  const { clearance } = judgementInputs(document, mechanism);
  const model = clearanceModel(mechanism, clearance);
  const bodies = new SmallestClearance(model);
  const least = document.floors?.clearance_mm ?? 0;
  const at = ({ pose }: WritableMoment): number => {
    poseBodies(model, pose);
    return bodies.now();
  };
  const out = request.get(TABLE);
  const table = out === undefined ? null : new MotionTable();
  const report = followMotion(
    design,
    timed.path,
    {
      times: timed.times,
      clearance: { at, least },
      ...(table ? { onSample: (time, readings) => table.add(time, readings) } : {}),
    },
    reportedWork(io, 'motion'),
  );
  const deviation = legSpaceDeviation(mechanism, timed.path, timed.ends);
  const poseAt = (time: number) => {
    const moment = writableMoment();
    timed.path.write(time, moment);
    return documentFromPoseAngles(anglesFromPose(moment.pose));
  };
  const output = motionOutput(document, design, report, {
    law: timed.law,
    fastest: timed.fastest,
    deviation,
    poseAt,
    least,
  });
  const files: readonly OutputFile[] = table && out !== undefined ? [{ name: out, bytes: table.text() }] : [];
  const findings = [...violationLines(output), ...motionFindings(document)];
  const outcome = done(jsonText(output), findings, files);
  // what is merely odd about the masses is said, and does not make the motion fail
  return { ...outcome, exit: output.fits ? 0 : 1 } as const;
}
