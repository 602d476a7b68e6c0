import { readFileSync } from 'node:fs';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { anglesFromPose, type PoseAngles } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import { proveBox } from '../../src/reach/prove/prove.ts';
import { contradictions, proofCases } from '../reach/proof-cases.ts';

/**
 * Time of the proof of boxes about the steady demo's home, and a long hunt for contradictions: ten layouts, a million random
 * poses each. Run: npx tsx tests/bench/prove.bench.ts [poses]
 */
const ROUNDS = 7;
const SEED = 2027;
const DEG = Math.PI / 180;

function steadyDemo(): Mechanism {
  const text = readFileSync(new URL('../../public/demos/steady.json', import.meta.url), 'utf8');
  const read = readDesign(text);
  if (!read.ok) throw new Error('the steady demo cannot be read');
  return mechanismFromDocument(read.value);
}

function timeBox(mechanism: Mechanism, travel: number, angle_deg: number): void {
  const angle = angle_deg * DEG;
  const half: PoseAngles = { position: [travel, travel, travel], roll: angle, pitch: angle, yaw: angle };
  const times: number[] = [];
  let answers = '';
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    const result = proveBox(
      mechanism,
      { centre: anglesFromPose(mechanism.home), half },
      { clearance: defaultClearance(mechanism) },
    );
    times.push(performance.now() - start);
    if (!result.ok) throw new Error(result.fault.message);
    const { reachable, regular, clear, boxes } = result.value;
    answers = `reachable ${reachable.answer}, regular ${regular.answer}, clear ${clear?.answer}, ${boxes} boxes`;
  }
  times.sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(share * (ROUNDS - 1))].toFixed(0);
  console.log(
    `+-${travel} mm, +-${angle_deg} deg: min ${at(0)} ms, median ${at(0.5)} ms, max ${at(1)} ms (${answers})`,
  );
}

function hunt(poses: number): void {
  const random = seededRandom(SEED);
  for (const own of proofCases(SEED)) {
    const result = proveBox(own.mechanism, own.box, { clearance: own.clearance, boxes: 20_000 });
    if (!result.ok) throw new Error(result.fault.message);
    const { reachable, regular, clear } = result.value;
    const found = contradictions(own, result.value, poses, random);
    console.log(
      `${own.name} (seed ${SEED}): reachable ${reachable.answer}, regular ${regular.answer}, clear ${clear?.answer}; ` +
        `contradictions in ${poses} poses: ${found.reachable}, ${found.regular}, ${found.clear}`,
    );
  }
}

const steady = steadyDemo();
timeBox(steady, 10, 5);
timeBox(steady, 12, 6);
timeBox(steady, 5, 2);
hunt(Number(process.argv[2] ?? 1_000_000));
