import { readFileSync } from 'node:fs';
import { judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { requirementsOf, taskPartsOf } from '../../src/document/task-inputs.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { JUDGE_FULLY, RequirementJudge } from '../../src/task/judge-requirement.ts';
import { judgeTask } from '../../src/task/judge-task.ts';
import { LegSearch } from '../../src/task/leg-extremes.ts';
import { piecesOf } from '../../src/task/requirement.ts';
import { demandsAt, densePose } from '../task/dense-search.ts';
import { randomTask } from '../task/random-tasks.ts';

/**
 * Time of a task of five requirements on the steady demo's parts, and a long hunt for poses past a certificate: ten random tasks, a
 * million poses each. Run: npx tsx tests/bench/task.bench.ts [poses]
 */
const ROUNDS = 15;
const WARMING = 5;
const SEED = 9100;

const REQUIREMENTS = [
  { name: 'Rock', box: { x_mm: 4, y_mm: 4, z_mm: 8, roll_deg: 5, pitch_deg: 5, yaw_deg: 3 }, toolError_mm: 0.3 },
  { name: 'Heave', box: { z_mm: 20, yaw_deg: 10 }, legForce_N: 60 },
  { name: 'Lean', round: { radius_mm: 5, tilt_deg: 8, yaw_deg: 5 }, firmness: 0.2 },
  { name: 'Alone', box: { x_mm: 15, y_mm: 15, z_mm: 15, roll_deg: 8, pitch_deg: 8, each: 'alone' } },
  { name: 'All', box: { x_mm: 8, y_mm: 8, z_mm: 8, roll_deg: 6, pitch_deg: 6, yaw_deg: 6 }, clearance_mm: 1 },
];

function fiveRequirements() {
  const file: object = JSON.parse(readFileSync(new URL('../../public/demos/steady.json', import.meta.url), 'utf8'));
  const design = readDesign(JSON.stringify({ ...file, task: { requirements: REQUIREMENTS } }));
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  const mechanism = mechanismFromDocument(design.value);
  const inputs = judgementInputs(design.value, mechanism);
  return {
    mechanism,
    parts: taskPartsOf(design.value, inputs),
    requirements: requirementsOf(design.value, mechanism),
  };
}

function time(name: string, work: () => void): void {
  for (let round = 0; round < WARMING; round++) work();
  const times: number[] = [];
  const cpu: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const used = process.cpuUsage();
    const start = performance.now();
    work();
    times.push(performance.now() - start);
    cpu.push(process.cpuUsage(used).user / 1000);
  }
  const at = (list: number[], share: number) =>
    [...list].sort((a, b) => a - b)[Math.floor(share * (ROUNDS - 1))].toFixed(1);
  console.log(
    `${name}: min ${at(times, 0)} ms, median ${at(times, 0.5)} ms, max ${at(times, 1)} ms; own processor time, median ${at(cpu, 0.5)} ms`,
  );
}

function timeTask(): void {
  const { mechanism, parts, requirements } = fiveRequirements();
  const search = new LegSearch(mechanism);
  time('five requirements, lengths and tilts, with proofs', () => {
    for (const { region } of requirements) search.extremes(piecesOf(region), true);
  });
  const judge = new RequirementJudge(mechanism, parts);
  time('five requirements, every line, with proofs', () => {
    for (const requirement of requirements) judge.judge(requirement, JUDGE_FULLY);
  });
  time('five requirements, everything, scales too', () => {
    judgeTask(mechanism, parts, requirements);
  });
}

function hunt(poses: number): void {
  for (let seed = SEED; seed < SEED + 10; seed++) {
    const random = seededRandom(seed);
    const { mechanism, requirement } = randomTask(random);
    const { region } = requirement;
    if (region.kind === 'box' && region.each === 'alone') continue;
    const found = new LegSearch(mechanism).extremes(piecesOf(region), true);
    const shapes = jointShapes(mechanism);
    const bounds = [found.shortest, found.longest, ...found.joints.map(({ extreme }) => extreme)].map(
      ({ bound }) => bound,
    );
    let past = 0;
    for (let n = 0; n < poses; n++) {
      const shares = Array.from({ length: 6 }, () => uniform(random, -1, 1));
      demandsAt(mechanism, shapes, densePose(region, shares)).forEach((value, k) => {
        const bound = bounds[k];
        if (bound !== null && (k === 0 ? value < bound : value > bound)) past++;
      });
    }
    const certified = bounds.filter((bound) => bound !== null).length;
    console.log(
      `seed ${seed}, ${region.kind}: ${certified} of ${bounds.length} certified; past them in ${poses} poses: ${past}`,
    );
  }
}

timeTask();
hunt(Number(process.argv[2] ?? 1_000_000));
