import { compiledDesign, homePose } from '../../src/document/compiled.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { curvesJob } from '../../src/jobs/curves-jobs.ts';
import { judgingJobs } from '../../src/jobs/judging-jobs.ts';
import { settingsOf } from '../../src/state/design/judging-inputs.ts';
import { helpsPlanOf } from '../../src/state/judge/helps-desk.ts';
import type { Floor } from '../../src/terms/quantities.ts';

/**
 * Time of all six curves through the steady demo's home, without and with floors, and of the table of what helps, without and with
 * the usable volume. Run: npx tsx tests/bench/curves.bench.ts
 */
const ROUNDS = 9;
const WARM_UP = 3;

/** The usable volume takes seconds a round. */
const SLOW_ROUNDS = 3;

function time(name: string, work: () => unknown, rounds = ROUNDS): void {
  for (let round = 0; round < Math.min(rounds - 1, WARM_UP); round++) work();
  const times = Array.from({ length: rounds }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(share * (rounds - 1))].toFixed(0);
  console.log(`${name}: min ${at(0)} ms, median ${at(0.5)} ms, max ${at(1)} ms`);
}

const document = DEMOS.steady;
const { spec } = compiledDesign(document).mechanism;
const pose = homePose(document);
const settings = settingsOf(document);
const floors: readonly Floor[] = [
  { quantity: 'toolError', value: 0.3 },
  { quantity: 'legForce', value: 6 },
  { quantity: 'clearance', value: 5 },
];
const plan = helpsPlanOf(document);
const report = () => undefined;

time('six curves, no floors', () => curvesJob({ spec, pose, settings, floors: [] }));
time('six curves, three floors', () => curvesJob({ spec, pose, settings, floors }));
time('what helps, reach and worst error', () => judgingJobs.helps({ plan, floors: null }, report));
time('what helps, usable volume too', () => judgingJobs.helps({ plan, floors: [] }, report), SLOW_ROUNDS);
