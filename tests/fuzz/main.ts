import { parseArgs } from 'node:util';
import fc from 'fast-check';
import { SUBJECTS } from './subjects.ts';

/** `npm run fuzz -- NAME --cases N --seed S`: one subject, any number of cases, the failing one shrunk and printed. */
const { values, positionals } = parseArgs({
  options: { cases: { type: 'string', default: '10000' }, seed: { type: 'string', default: '1' } },
  allowPositionals: true,
});
const [name = ''] = positionals;
const [cases, seed] = [Number(values.cases), Number(values.seed)];
if (!Object.hasOwn(SUBJECTS, name) || !Number.isInteger(cases) || cases < 1 || !Number.isInteger(seed)) {
  console.error(`npm run fuzz -- NAME --cases N --seed S, NAME one of ${Object.keys(SUBJECTS).join(', ')}.`);
  process.exit(2);
}
const { property, end } = await SUBJECTS[name]();
const run = await fc.check(property, { numRuns: cases, seed });
end();
if (run.failed) {
  const reason = run.errorInstance instanceof Error ? run.errorInstance.stack : String(run.errorInstance);
  console.error(
    `${name}: a fault after ${run.numRuns} cases, seed ${seed}.\n${reason}\n${JSON.stringify(run.counterexample)}`,
  );
  process.exitCode = 1;
} else console.log(`${name}: ${cases} cases without a fault, seed ${seed}.`);
